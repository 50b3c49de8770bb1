#pragma once

#include <chrono>
#include <cstddef>
#include <memory>
#include <semaphore>

namespace phone {

// Lets so many hold something large at once, and no more.
class FewAtOnce {
 public:
  explicit FewAtOnce(std::ptrdiff_t most) : free_(std::make_shared<Free>(most)) {}

  // A turn, waited for at most so long and held as long as this lives; nothing where there is none.
  [[nodiscard]] std::shared_ptr<void> turn(std::chrono::milliseconds patience) {
    if (!free_->try_acquire_for(patience)) return nullptr;
    return {free_.get(), [free = free_](void*) { free->release(); }};
  }

 private:
  using Free = std::counting_semaphore<>;

  std::shared_ptr<Free> free_;
};

}  // namespace phone
