// Loaded into the program before its libraries (LD_PRELOAD), where a test lets a call of the system
// fail: whoever makes it, the program, SQLite or the C++ library. What fails is said by
// FailingCall::environment() (failing_call.h).

#include <dlfcn.h>
#include <fcntl.h>
#include <stdio.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <cerrno>
#include <cstdarg>
#include <cstdlib>
#include <cstring>

namespace {

enum class Way { AsEver, Fails, InPart };

const char* said(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

// One mark a call: a dot, or F where it failed.
void tell(const char* mark) {
  const auto handle = syscall(SYS_openat, AT_FDCWD, said("FAILING_TOLD"),
                              O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
  if (handle < 0) return;
  (void)syscall(SYS_write, handle, mark, 1);
  (void)syscall(SYS_close, handle);
}

Way way_of(const char* call, const char* file) {
  const char* folder = said("FAILING_FOLDER");
  if (*folder == '\0' || std::strncmp(file, folder, std::strlen(folder)) != 0 ||
      std::strcmp(call, said("FAILING_CALL")) != 0) {
    return Way::AsEver;
  }
  static long calls = 0;
  const long number = calls++;
  const long wanted = std::atol(said("FAILING_NUMBER"));
  const bool lasting = *said("FAILING_LASTING") != '\0';
  const bool fails = number == wanted || (lasting && number > wanted);
  tell(fails ? "F" : ".");
  if (!fails) return Way::AsEver;
  errno = std::atoi(said("FAILING_CODE"));
  return lasting && number == wanted ? Way::InPart : Way::Fails;
}

Way way_of(const char* call, int handle) {
  char link[64];
  char file[4096] = {};
  (void)snprintf(link, sizeof link, "/proc/self/fd/%d", handle);
  if (readlink(link, file, sizeof file - 1) < 0) return Way::AsEver;
  return way_of(call, file);
}

template <class Function>
Function* real(const char* name) {
  return reinterpret_cast<Function*>(dlsym(RTLD_NEXT, name));
}

using Write = ssize_t(int, const void*, size_t);
using WriteAt = ssize_t(int, const void*, size_t, off64_t);
using OfHandle = int(int);
using Truncate = int(int, off64_t);
using OfTwoNames = int(const char*, const char*);
using Open = int(const char*, int, ...);

// As much of it as still arrives.
size_t part_of(size_t size, Way way) { return way == Way::InPart ? size / 2 : size; }

ssize_t write_at(const char* name, int handle, const void* data, size_t size, off64_t offset) {
  const auto way = way_of("write", handle);
  if (way == Way::Fails || part_of(size, way) == 0) return -1;
  return real<WriteAt>(name)(handle, data, part_of(size, way), offset);
}

int truncate_to(const char* name, int handle, off64_t size) {
  if (way_of("ftruncate", handle) != Way::AsEver) return -1;
  return real<Truncate>(name)(handle, size);
}

int open_file(const char* name, const char* file, int flags, unsigned mode) {
  if (way_of("open", file) != Way::AsEver) return -1;
  return real<Open>(name)(file, flags, mode);
}

unsigned mode_behind(int flags, va_list rest) {
  return (flags & O_CREAT) != 0 ? va_arg(rest, unsigned) : 0U;
}

}  // namespace

extern "C" {

ssize_t write(int handle, const void* data, size_t size) {
  const auto way = way_of("write", handle);
  if (way == Way::Fails || (size > 0 && part_of(size, way) == 0)) return -1;
  return real<Write>("write")(handle, data, part_of(size, way));
}

ssize_t pwrite(int handle, const void* data, size_t size, off_t offset) {
  return write_at("pwrite", handle, data, size, offset);
}

ssize_t pwrite64(int handle, const void* data, size_t size, off64_t offset) {
  return write_at("pwrite64", handle, data, size, offset);
}

int fsync(int handle) {
  return way_of("fsync", handle) == Way::AsEver ? real<OfHandle>("fsync")(handle) : -1;
}

int fdatasync(int handle) {
  return way_of("fsync", handle) == Way::AsEver ? real<OfHandle>("fdatasync")(handle) : -1;
}

int ftruncate(int handle, off_t size) noexcept { return truncate_to("ftruncate", handle, size); }

int ftruncate64(int handle, off64_t size) noexcept {
  return truncate_to("ftruncate64", handle, size);
}

int rename(const char* from, const char* to) noexcept {
  return way_of("rename", from) == Way::AsEver ? real<OfTwoNames>("rename")(from, to) : -1;
}

int renameat2(int from_folder, const char* from, int to_folder, const char* to,
              unsigned flags) noexcept {
  if (way_of("rename", from) != Way::AsEver) return -1;
  return static_cast<int>(syscall(SYS_renameat2, from_folder, from, to_folder, to, flags));
}

int open(const char* file, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  const unsigned mode = mode_behind(flags, rest);
  va_end(rest);
  return open_file("open", file, flags, mode);
}

int open64(const char* file, int flags, ...) {
  va_list rest;
  va_start(rest, flags);
  const unsigned mode = mode_behind(flags, rest);
  va_end(rest);
  return open_file("open64", file, flags, mode);
}

}  // extern "C"
