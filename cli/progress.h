// Says on standard error, a terminal, that work goes on, once it takes longer than a second.
#pragma once

#include <condition_variable>
#include <iosfwd>
#include <mutex>
#include <string>
#include <thread>

namespace tacksquare {

class Progress {
 public:
  Progress(std::ostream& err, std::string doing);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

 private:
  void watch();

  std::ostream& err_;
  std::string doing_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool over_ = false;
  std::thread thread_;
};

} // namespace tacksquare
