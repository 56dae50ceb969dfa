#pragma once
/// The pass loop: chunks of blocks on any number of threads, their records committed in order.
#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <thread>
#include <type_traits>
#include <vector>

namespace engine {

/// How a run is carried out; none of it changes a result.
struct Running {
  unsigned threads = 1;
  std::function<void(double)> progress;            ///< told the share done, 0 to 1, from any thread
  const std::atomic<bool>* interrupted = nullptr;  ///< set from outside: stop soon
};

/// Thrown out of a run that was interrupted from outside.
struct Interrupted : std::exception {
  const char* what() const noexcept override { return "interrupted"; }
};

/// A commit's word on whether to go on; one that says nothing means yes.
template <class Commit, class Record>
bool go_on(Commit& commit, Record& record) {
  if constexpr (std::is_void_v<decltype(commit(record))>)
    return commit(record), true;
  else
    return commit(record);
}

/// Calls `work(chunk)` for every chunk on `threads` threads, and `commit(record)` for each in order of the chunks, one
/// at a time. A thread runs ahead of the commits by a few chunks at most, so memory does not grow with the run.
/// A commit that returns false ends the run: no later chunk is committed, whatever other threads have done by then.
/// @throws whatever work or commit throws first; Interrupted
template <class Work, class Commit>
void run_chunks(std::uint64_t chunks, const Running& running, Work work, Commit commit) {
  using Record = decltype(work(std::uint64_t{}));
  const auto threads =
      static_cast<unsigned>(std::min<std::uint64_t>(std::max(1u, running.threads), std::max<std::uint64_t>(1, chunks)));
  std::mutex mutex;
  std::condition_variable moved;
  std::map<std::uint64_t, Record> waiting;
  std::uint64_t next = 0, committed = 0;
  std::exception_ptr failure;

  const auto worker = [&] {
    std::unique_lock lock(mutex);
    for (;;) {
      moved.wait(lock, [&] { return failure || next >= chunks || next < committed + std::uint64_t{4} * threads; });
      if (failure || next >= chunks) return;
      const std::uint64_t chunk = next++;
      lock.unlock();
      try {
        if (running.interrupted && *running.interrupted) throw Interrupted{};
        Record record = work(chunk);
        lock.lock();
        waiting.emplace(chunk, std::move(record));
        const auto due = [&] { return committed < chunks && !waiting.empty() && waiting.begin()->first == committed; };
        while (due()) {
          if (!go_on(commit, waiting.begin()->second)) chunks = committed + 1;
          waiting.erase(waiting.begin());
          ++committed;
        }
        if (running.progress) running.progress(static_cast<double>(committed) / static_cast<double>(chunks));
      } catch (...) {
        if (!lock.owns_lock()) lock.lock();
        if (!failure) failure = std::current_exception();
      }
      moved.notify_all();
    }
  };
  std::vector<std::thread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back(worker);
  worker();
  for (std::thread& other : others) other.join();
  if (failure) std::rethrow_exception(failure);
}

}  // namespace engine
