// Holds the headers that are compiled once for every room.
