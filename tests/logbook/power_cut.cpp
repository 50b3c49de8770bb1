#include "logbook/power_cut.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <memory>
#include <string>

namespace {

using Event = WatchedDisk::Event;
using What = Event::What;

// A file whatever its name: what is sure, and what was done since.
struct Content {
  std::string sure;
  std::vector<const Event*> since;
};
using Names = std::map<std::string, std::shared_ptr<Content>>;

void write_into(std::string& bytes, std::uint64_t offset, std::string_view what) {
  if (bytes.size() < offset + what.size()) bytes.resize(offset + what.size());
  std::ranges::copy(what, bytes.begin() + static_cast<std::ptrdiff_t>(offset));
}

void apply(std::string& bytes, const Event& event) {
  if (event.what == What::Truncate) {
    bytes.resize(event.offset);
  } else {
    write_into(bytes, event.offset, event.bytes);
  }
}

// Each sector of the write by itself, and now and then only its beginning.
void scatter(std::string& bytes, const Event& event, std::size_t sector, std::mt19937& random) {
  if (event.what == What::Truncate) {
    if (random() % 2 == 0) apply(bytes, event);
    return;
  }
  const std::string_view all(event.bytes);
  for (std::size_t at = 0; at < all.size();) {
    const auto in_sector = sector - (event.offset + at) % sector;
    auto part = all.substr(at, in_sector);
    at += part.size();
    const auto die = random() % 8;
    if (die < 4) continue;
    if (die == 4) part = part.substr(0, random() % (part.size() + 1));
    if (!part.empty()) {
      write_into(bytes, static_cast<std::uint64_t>(part.data() - all.data()) + event.offset, part);
    }
  }
}

std::string left_of(const Content& content, Unsynced lost, std::size_t sector,
                    std::mt19937& random) {
  auto bytes = content.sure;
  const auto count = content.since.size();
  const auto torn = lost == Unsynced::Torn && count > 0 ? random() % count : count;
  for (std::size_t i = 0; i < count && lost != Unsynced::Lost; ++i) {
    const auto& event = *content.since[i];
    if (lost == Unsynced::Scattered) {
      scatter(bytes, event, sector, random);
    } else if (i < torn) {
      apply(bytes, event);
    } else {
      if (event.what == What::Write && !event.bytes.empty()) {
        write_into(bytes, event.offset,
                   std::string_view(event.bytes).substr(0, random() % event.bytes.size()));
      }
      break;
    }
  }
  return bytes;
}

// The disk while the events pass by: the names that are sure, and after each change since what they
// would be.
class Disk {
 public:
  void pass(const Event& event) {
    switch (event.what) {
      case What::Present:
        // Since before we looked, so that it is sure.
        for (auto& names : states_) names[event.file] = std::make_shared<Content>();
        names()[event.file]->sure = event.bytes;
        for (auto& earlier : states_) earlier[event.file] = names()[event.file];
        break;
      case What::Create:
        changed()[event.file] = std::make_shared<Content>();
        is_new_[event.file] = true;
        break;
      case What::Write:
      case What::Truncate:
        of(event.file).since.push_back(&event);
        break;
      case What::Sync:
        sync(event.file);
        break;
      case What::Delete:
        changed().erase(event.file);
        break;
      case What::Rename: {
        auto& now = changed();
        const auto from = now.find(event.file);
        if (from == now.end()) break;
        now[event.to] = from->second;
        now.erase(event.file);
        break;
      }
      case What::SyncFolder:
        names_are_sure();
        break;
      case What::Told:
        lines_ = event.lines;
        break;
    }
  }

  // The names as any prefix of the changes since they were sure would have them.
  [[nodiscard]] const Names& left(Unsynced lost, std::mt19937& random) const {
    if (lost == Unsynced::Lost) return states_.front();
    if (lost == Unsynced::Written) return states_.back();
    return states_[random() % states_.size()];
  }
  [[nodiscard]] std::size_t lines() const { return lines_; }

 private:
  Names& names() { return states_.back(); }
  Names& changed() {
    states_.push_back(states_.back());
    return names();
  }
  Content& of(const std::string& file) {
    auto& content = names()[file];
    if (!content) content = std::make_shared<Content>();
    return *content;
  }
  void sync(const std::string& file) {
    auto& content = of(file);
    for (const auto* event : content.since) apply(content.sure, *event);
    content.since.clear();
    // SQLite syncs the folder with the first sync of a journal or log that it made.
    const bool is_log = file.ends_with("-wal") || file.ends_with("-journal");
    if (is_log && is_new_[file]) names_are_sure();
    is_new_[file] = false;
  }
  void names_are_sure() { states_ = {names()}; }

  std::vector<Names> states_ = std::vector<Names>(1);
  std::map<std::string, bool> is_new_;
  std::size_t lines_ = 0;
};

}  // namespace

std::size_t lay_out(const std::vector<Event>& events, std::size_t before, Unsynced what_is_lost,
                    std::size_t sector, std::mt19937& random, const std::filesystem::path& folder) {
  Disk disk;
  for (std::size_t i = 0; i < before; ++i) disk.pass(events[i]);
  for (const auto& [name, content] : disk.left(what_is_lost, random)) {
    const auto file = folder / std::filesystem::path(name).filename();
    const auto bytes = left_of(*content, what_is_lost, sector, random);
    std::ofstream(file, std::ios::binary) << bytes;
    if (!name.ends_with("-wal")) continue;
    std::string rubbish(32768, '\0');
    for (char& byte : rubbish) byte = static_cast<char>(random());
    auto index = file.string();
    index.replace(index.size() - 4, 4, "-shm");
    std::ofstream(index, std::ios::binary) << rubbish;
  }
  return disk.lines();
}
