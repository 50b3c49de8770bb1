#pragma once

#include <cstddef>
#include <filesystem>
#include <random>
#include <vector>

#include "logbook/watched_disk.h"

// What lies on the disk when the power goes before one of its events. What was made sure (sync) is
// there; of what was not
enum class Unsynced {
  Lost,       // nothing
  Written,    // everything
  Torn,       // everything up to a write of which the beginning is there, and nothing after it
  Scattered,  // any sectors of any writes: late ones without the early ones, some by halves
};
constexpr Unsynced kEveryLoss[] = {Unsynced::Lost, Unsynced::Written, Unsynced::Torn,
                                   Unsynced::Scattered};

// Lays the files out in this empty folder under their own names, as the power left them. Names that
// were made, taken away or changed and not made sure are there or not, the earlier before the
// later. The shared index beside a logbook is laid out as rubbish, for it is kept by no power cut.
// `sector` is what the disk writes at once, 512 or 4096 bytes. Returns how many lines had been
// acknowledged.
std::size_t lay_out(const std::vector<WatchedDisk::Event>& events, std::size_t before,
                    Unsynced what_is_lost, std::size_t sector, std::mt19937& random,
                    const std::filesystem::path& folder);
