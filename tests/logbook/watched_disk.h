#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

// The disk below SQLite, watched: a VFS over the ordinary one that becomes the default while it
// lives. It notes what is changed on the disk in which order and what is made sure (sync), so that
// a power cut at any place can be laid out afterwards (power_cut.h), and lets single calls fail.
// Files stay where they are. What this program does to names and folders beside SQLite (renameat2,
// rename, fsync) is noted too. One at a time.
class WatchedDisk {
 public:
  // What happens to the disk. Of Create, Sync and SyncFolder the rest is empty; Rename has the new
  // name in `to`; a Sync of what SQLite does not write brings the whole content along.
  struct Event {
    enum class What { Present, Create, Write, Truncate, Sync, Delete, Rename, SyncFolder, Told };
    What what = What::Present;
    std::string file;
    std::uint64_t offset = 0;  // of Write; the size of Truncate
    std::string bytes;         // of Write; the content of Present
    std::string to = {};
    std::size_t lines = 0;  // of Told: how many lines were acknowledged by then
  };

  // Calls of SQLite that can fail.
  enum class Call {
    Open,
    Read,
    Write,
    Truncate,
    Sync,
    Size,
    Lock,
    Delete,
    Access,
    MapShared,
    LockShared
  };
  static constexpr int kCalls = 11;

  // The call of this kind with this number, from 0 on, does not work and returns `code`; where
  // `lasting`, neither does any after it. `share` of what it was to write arrives.
  struct Fault {
    Call call = Call::Write;
    std::size_t number = 0;
    int code = 0;
    bool lasting = false;
    double share = 0;
  };

  WatchedDisk();
  ~WatchedDisk();
  WatchedDisk(const WatchedDisk&) = delete;
  WatchedDisk& operator=(const WatchedDisk&) = delete;

  // From here on so many lines are acknowledged.
  void told(std::size_t lines);
  [[nodiscard]] const std::vector<Event>& events() const { return events_; }
  void forget();

  // Counts calls anew, and has this one fail.
  void fail(std::optional<Fault> fault);
  [[nodiscard]] std::size_t calls(Call call) const;
  [[nodiscard]] bool has_failed() const { return has_failed_; }

  // The way from SQLite's calls to here (watched_disk.cpp).
  void note(Event event);
  std::optional<Fault> count(Call call);

 private:
  std::vector<Event> events_;
  std::map<Call, std::size_t> calls_;
  std::optional<Fault> fault_;
  bool has_failed_ = false;
};
