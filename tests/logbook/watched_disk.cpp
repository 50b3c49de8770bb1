#include "logbook/watched_disk.h"

#include <sqlite3.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <new>
#include <set>
#include <stdexcept>

#include "support/content_of.h"

namespace {

namespace fs = std::filesystem;
using What = WatchedDisk::Event::What;
using Call = WatchedDisk::Call;

WatchedDisk* the_disk = nullptr;
sqlite3_vfs* real_vfs = nullptr;
sqlite3_vfs watched_vfs;

// What SQLite asks for memory for: this, and the real file right behind it.
struct WatchedFile {
  sqlite3_file base;
  std::string* name;  // nothing for one without a name, which no power cut leaves behind
  [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

WatchedFile* watched(sqlite3_file* file) { return reinterpret_cast<WatchedFile*>(file); }
sqlite3_file* real(sqlite3_file* file) { return watched(file)->real(); }

void note(WatchedFile* file, WatchedDisk::Event event) {
  if (the_disk == nullptr || file->name == nullptr) return;
  event.file = *file->name;
  the_disk->note(std::move(event));
}

// The code with which this call is to fail.
std::optional<WatchedDisk::Fault> failing(Call call) {
  return the_disk == nullptr ? std::nullopt : the_disk->count(call);
}

int close_file(sqlite3_file* file) {
  const int code = real(file)->pMethods->xClose(real(file));
  delete watched(file)->name;
  return code;
}

int read_file(sqlite3_file* file, void* to, int count, sqlite3_int64 offset) {
  if (const auto fault = failing(Call::Read)) return fault->code;
  return real(file)->pMethods->xRead(real(file), to, count, offset);
}

int write_file(sqlite3_file* file, const void* from, int count, sqlite3_int64 offset) {
  const auto fault = failing(Call::Write);
  const int arrives = fault ? static_cast<int>(fault->share * count) : count;
  int code = SQLITE_OK;
  if (arrives > 0) code = real(file)->pMethods->xWrite(real(file), from, arrives, offset);
  if (code == SQLITE_OK && arrives > 0) {
    note(watched(file), {What::Write,
                         {},
                         static_cast<std::uint64_t>(offset),
                         {static_cast<const char*>(from), static_cast<std::size_t>(arrives)}});
  }
  return fault ? fault->code : code;
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  if (const auto fault = failing(Call::Truncate)) return fault->code;
  const int code = real(file)->pMethods->xTruncate(real(file), size);
  if (code == SQLITE_OK) {
    note(watched(file), {What::Truncate, {}, static_cast<std::uint64_t>(size), {}});
  }
  return code;
}

int sync_file(sqlite3_file* file, int flags) {
  if (const auto fault = failing(Call::Sync)) return fault->code;
  // What it would wait for is the disk, and no power is cut in earnest.
  (void)flags;
  note(watched(file), {What::Sync, {}, 0, {}});
  return SQLITE_OK;
}

int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
  if (const auto fault = failing(Call::Size)) return fault->code;
  return real(file)->pMethods->xFileSize(real(file), size);
}

int lock_file(sqlite3_file* file, int level) {
  if (const auto fault = failing(Call::Lock)) return fault->code;
  return real(file)->pMethods->xLock(real(file), level);
}

int unlock_file(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}

int is_reserved(sqlite3_file* file, int* result) {
  return real(file)->pMethods->xCheckReservedLock(real(file), result);
}

int control_file(sqlite3_file* file, int what, void* argument) {
  return real(file)->pMethods->xFileControl(real(file), what, argument);
}

int sector_size(sqlite3_file* file) { return real(file)->pMethods->xSectorSize(real(file)); }

// Nothing is promised: the worst disk there is.
int characteristics(sqlite3_file*) { return 0; }

int map_shared(sqlite3_file* file, int region, int size, int extend, void volatile** memory) {
  if (const auto fault = failing(Call::MapShared)) return fault->code;
  return real(file)->pMethods->xShmMap(real(file), region, size, extend, memory);
}

int lock_shared(sqlite3_file* file, int offset, int count, int flags) {
  if ((flags & SQLITE_SHM_LOCK) != 0) {
    if (const auto fault = failing(Call::LockShared)) return fault->code;
  }
  return real(file)->pMethods->xShmLock(real(file), offset, count, flags);
}

void shared_barrier(sqlite3_file* file) { real(file)->pMethods->xShmBarrier(real(file)); }

int unmap_shared(sqlite3_file* file, int remove) {
  return real(file)->pMethods->xShmUnmap(real(file), remove);
}

const sqlite3_io_methods kMethods = {2,
                                     close_file,
                                     read_file,
                                     write_file,
                                     truncate_file,
                                     sync_file,
                                     size_of_file,
                                     lock_file,
                                     unlock_file,
                                     is_reserved,
                                     control_file,
                                     sector_size,
                                     characteristics,
                                     map_shared,
                                     lock_shared,
                                     shared_barrier,
                                     unmap_shared,
                                     nullptr,
                                     nullptr};

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  auto* at = watched(file);
  at->base.pMethods = nullptr;
  at->name = nullptr;
  if (const auto fault = failing(Call::Open)) return fault->code;
  struct stat status {};
  const bool was_there = name != nullptr && ::stat(name, &status) == 0;
  const int code = real_vfs->xOpen(real_vfs, name, at->real(), flags, out_flags);
  if (code != SQLITE_OK) return code;
  at->base.pMethods = &kMethods;
  if (name == nullptr) return code;
  at->name = new std::string(name);
  note(at, {was_there ? What::Present : What::Create, {}, 0, {}});
  return code;
}

int delete_file(sqlite3_vfs*, const char* name, int sync_folder) {
  if (const auto fault = failing(Call::Delete)) return fault->code;
  const int code = real_vfs->xDelete(real_vfs, name, 0);
  if (code == SQLITE_OK && the_disk != nullptr) {
    the_disk->note({What::Delete, name, 0, {}});
    if (sync_folder != 0) the_disk->note({What::SyncFolder, {}, 0, {}});
  }
  return code;
}

int access_file(sqlite3_vfs*, const char* name, int flags, int* result) {
  if (const auto fault = failing(Call::Access)) return fault->code;
  return real_vfs->xAccess(real_vfs, name, flags, result);
}

int full_name(sqlite3_vfs*, const char* name, int size, char* result) {
  return real_vfs->xFullPathname(real_vfs, name, size, result);
}

int randomness(sqlite3_vfs*, int count, char* result) {
  return real_vfs->xRandomness(real_vfs, count, result);
}

int sleep_for(sqlite3_vfs*, int microseconds) { return real_vfs->xSleep(real_vfs, microseconds); }

int current_time(sqlite3_vfs*, double* result) { return real_vfs->xCurrentTime(real_vfs, result); }

int last_error(sqlite3_vfs*, int count, char* result) {
  return real_vfs->xGetLastError(real_vfs, count, result);
}

int current_time_64(sqlite3_vfs*, sqlite3_int64* result) {
  return real_vfs->xCurrentTimeInt64(real_vfs, result);
}

std::string name_of(int handle) {
  std::error_code problem;
  return fs::read_symlink("/proc/self/fd/" + std::to_string(handle), problem).string();
}

}  // namespace

// The linker leads these calls of the program here (tests/logbook/CMakeLists.txt).
extern "C" {
int __real_renameat2(int, const char*, int, const char*, unsigned);
int __real_rename(const char*, const char*);
int __real_fsync(int);

int __wrap_renameat2(int from_folder, const char* from, int to_folder, const char* to,
                     unsigned flags) {
  const int result = __real_renameat2(from_folder, from, to_folder, to, flags);
  if (result == 0 && the_disk != nullptr) the_disk->note({What::Rename, from, 0, {}, to});
  return result;
}

int __wrap_rename(const char* from, const char* to) {
  const int result = __real_rename(from, to);
  if (result == 0 && the_disk != nullptr) the_disk->note({What::Rename, from, 0, {}, to});
  return result;
}

int __wrap_fsync(int handle) {
  if (the_disk == nullptr) return __real_fsync(handle);
  const auto name = name_of(handle);
  if (fs::is_directory(name)) {
    the_disk->note({What::SyncFolder, name, 0, {}});
  } else {
    the_disk->note({What::Write, name, 0, content_of(name)});
    the_disk->note({What::Sync, name, 0, {}});
  }
  return 0;
}
}

WatchedDisk::WatchedDisk() {
  if (the_disk != nullptr) throw std::logic_error("one watched disk at a time");
  real_vfs = sqlite3_vfs_find(nullptr);
  watched_vfs = {2,
                 static_cast<int>(sizeof(WatchedFile)) + real_vfs->szOsFile,
                 real_vfs->mxPathname,
                 nullptr,
                 "watched",
                 nullptr,
                 open_file,
                 delete_file,
                 access_file,
                 full_name,
                 nullptr,
                 nullptr,
                 nullptr,
                 nullptr,
                 randomness,
                 sleep_for,
                 current_time,
                 last_error,
                 current_time_64,
                 nullptr,
                 nullptr,
                 nullptr};
  sqlite3_vfs_register(&watched_vfs, 1);
  the_disk = this;
}

WatchedDisk::~WatchedDisk() {
  the_disk = nullptr;
  sqlite3_vfs_unregister(&watched_vfs);
  sqlite3_vfs_register(real_vfs, 1);
}

void WatchedDisk::told(std::size_t lines) { note({What::Told, {}, 0, {}, {}, lines}); }

void WatchedDisk::forget() { events_.clear(); }

void WatchedDisk::note(Event event) {
  if (event.what == What::Present) {
    // Its content matters where it was not written before our eyes.
    for (const auto& earlier : events_) {
      if (earlier.file == event.file || earlier.to == event.file) return;
    }
    event.bytes = content_of(event.file);
  }
  events_.push_back(std::move(event));
}

void WatchedDisk::fail(std::optional<Fault> fault) {
  calls_.clear();
  fault_ = fault;
  has_failed_ = false;
}

std::size_t WatchedDisk::calls(Call call) const {
  const auto found = calls_.find(call);
  return found == calls_.end() ? 0 : found->second;
}

std::optional<WatchedDisk::Fault> WatchedDisk::count(Call call) {
  const auto number = calls_[call]++;
  if (!fault_ || fault_->call != call) return std::nullopt;
  if (number != fault_->number && !(fault_->lasting && number > fault_->number)) {
    return std::nullopt;
  }
  has_failed_ = true;
  return fault_;
}
