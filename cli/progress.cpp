#include "cli/progress.h"

#include <chrono>
#include <ostream>

namespace tacksquare {

Progress::Progress(std::ostream& err, std::string doing)
    : err_(err), doing_(std::move(doing)), thread_([this] { watch(); }) {}

Progress::~Progress() {
  {
    const std::lock_guard lock(mutex_);
    over_ = true;
  }
  ended_.notify_one();
  thread_.join();
}

void Progress::watch() {
  std::unique_lock lock(mutex_);
  for (int seconds = 1; !ended_.wait_for(lock, std::chrono::seconds(1), [this] { return over_; }); ++seconds)
    err_ << "tacksquare: " << doing_ << ", " << seconds << " s" << std::endl;
}

} // namespace tacksquare
