# A bearing cap of a small hydro-power gearbox, invented like every number here:
# four bolts, and the manual says 80 N·m or 708 in·lbf.
boltwitness start gb2.bolts --machine 'GB-2, gearbox of a small hydro plant'
boltwitness wrench TW2 --range '20..200 N·m' --graduation '1 N·m' --calibrated DAY

# Somebody mixes the two up. What would tear the bolt off is not taken in.
boltwitness joint J1 --holds 'bearing cap' --size M12x1.75 --grade 10.9 --count 4 --spec '708 N·m' --source 'GB-2 manual p. 19' # exit code 1
boltwitness joint J1 --holds 'bearing cap' --size M12x1.75 --length 40mm --grade 10.9 --count 4 --layout circle --spec '80 N·m' --condition oiled --source 'GB-2 manual p. 19'

# Before a bolt moves, a pen line goes across its head and the cap. It is broken
# loose with a bar and at once tightened again with the torque wrench at rising
# settings until the line is met and passed: s short of it, o on it, p past it.
boltwitness found J1/1 70s 75s 78s 80o 82p --wrench TW2
boltwitness found J1/2 44s 48s 51s 52o 53p --wrench TW2
boltwitness out J1/1-4 --bag A1

# Number 2 had lost a third of its torque.
boltwitness compare
boltwitness audit # exit code 1

# The audit says no. What is to become of it is decided, with a reason.
boltwitness settle found-low:J1/2 --as re-torque --why 'seat and thread clean'

# Weeks later: what goes back in which order, with which wrench at what setting.
boltwitness sequence
boltwitness tighten J1/1-4 --pass 1
boltwitness tighten J1/1-4 --pass 2
boltwitness tighten J1/1-4 --pass 3

# A new line across head and cap shows from now on whether a bolt turned.
boltwitness stripe J1/1-4 --wiped
boltwitness sequence --status

# Pages to print: form for the next teardown, sequence to tick off, job report.
boltwitness sheet --out sheet.html
boltwitness sequence --html --out sequence.html
boltwitness report --out report.html
