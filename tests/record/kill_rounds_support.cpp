#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdint>
#include <random>

#include "record/kill_rounds.h"
#include "record/scratch.h"
#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/sqlite.h"

namespace weatherstruck::record {
namespace {

const char* const append_program = WEATHERSTRUCK_BINARY_DIR "/tests/record_append_program";
const char* const pack_program = WEATHERSTRUCK_BINARY_DIR "/tests/record_pack_program";

struct Child {
  pid_t id = -1;
  int acknowledgements = -1;
};

Child start(const char* program, const std::filesystem::path& first, const std::string& second = {}) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  const pid_t id = fork();
  if (id == 0) {
    dup2(ends[1], STDOUT_FILENO);
    if (second.empty()) execl(program, program, first.c_str(), nullptr);
    execl(program, program, first.c_str(), second.c_str(), nullptr);
    _exit(127);
  }
  close(ends[1]);
  return {id, ends[0]};
}

// The next number said, or 0 at the end.
std::int64_t next_number(int from) {
  std::int64_t number = 0;
  const ssize_t got = read(from, &number, sizeof number);
  return got == static_cast<ssize_t>(sizeof number) ? number : 0;
}

// Lets a stretch of time go by without the clock.
void spin(std::uint32_t turns) {
  volatile std::uint32_t done = 0;
  while (done < turns)
    done = done + 1;
}

// Starts, waits for some acknowledgements and a moment more, kills. The last number said.
std::int64_t kill_once(const std::filesystem::path& file, std::mt19937& random, std::int64_t before) {
  const Child child = start(append_program, file);
  std::int64_t acknowledged = before;
  const auto wanted = static_cast<int>(random() % 9);
  for (int i = 0; i < wanted; ++i) {
    const std::int64_t number = next_number(child.acknowledgements);
    EXPECT_EQ(number, acknowledged + 1);
    if (number == 0) break;
    acknowledged = number;
  }
  // Up to about ten milliseconds, of the order of opening the file or keeping an entry.
  spin(static_cast<std::uint32_t>(random() % 8'000'000));
  kill(child.id, SIGKILL);
  for (std::int64_t number = next_number(child.acknowledgements); number != 0;
       number = next_number(child.acknowledgements)) {
    EXPECT_EQ(number, acknowledged + 1);
    acknowledged = number;
  }
  close(child.acknowledgements);
  int status = 0;
  waitpid(child.id, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "it ended by itself with " << WEXITSTATUS(status);
  return acknowledged;
}

// The number of the last entry kept. Photographs of lines up to `looked_at` are not read once more.
std::int64_t look(const std::filesystem::path& file, int& left_open, std::int64_t looked_at) {
  Store store(file);
  if (store.opening().tail.left_open) ++left_open;
  EXPECT_EQ(store.opening().tail.lost, 0) << "a killed program loses nothing it had acknowledged";
  store.check_whole();
  const auto job = store.job("wall");
  if (!job) return 0;
  const std::vector<Entry> entries = store.entries(job->id);
  std::int64_t number = 0;
  for (const Entry& entry : entries) {
    ++number;
    EXPECT_EQ(entry.revision, number);
    EXPECT_EQ(entry.key, numbered_entry(number).key);
    EXPECT_EQ(entry.body, numbered_entry(number).body);
  }
  const std::vector<Photograph> photographs = store.photographs(job->id);
  EXPECT_EQ(photographs.size(), entries.size()) << "an entry without its photograph";
  for (const Photograph& photograph : photographs) {
    if (photograph.line <= looked_at) continue;
    EXPECT_EQ(photograph.content, content_of_bytes(numbered_photograph(photograph.line)));
    EXPECT_EQ(state_of(file, photograph), PhotographState::whole) << "line " << photograph.line;
  }
  const auto sheet = store.latest_sheet(job->id, "morning");
  EXPECT_EQ(sheet ? sheet->bytes : "0", std::to_string(number)) << "an entry without its sheet";
  return number;
}

}  // namespace

void kill_and_look(int rounds, unsigned seed) {
  const Scratch scratch;
  std::mt19937 random(seed);
  std::int64_t kept = 0;
  int left_open = 0;
  int unacknowledged = 0;
  for (int round = 0; round < rounds; ++round) {
    SCOPED_TRACE(round);
    const std::int64_t acknowledged = kill_once(scratch.file(), random, kept);
    kept = look(scratch.file(), left_open, kept);
    EXPECT_GE(kept, acknowledged) << "an acknowledged entry is lost";
    EXPECT_LE(kept, acknowledged + 1) << "an entry nobody sent";
    if (kept > acknowledged) ++unacknowledged;
    if (testing::Test::HasFailure()) return;
  }
  Connection connection(scratch.file(), Connection::Open::existing, std::chrono::milliseconds(1000));
  EXPECT_EQ(connection.text("PRAGMA integrity_check"), "ok");
  Store store(scratch.file());
  EXPECT_TRUE(store.lost_photographs(store.job("wall").value().id).empty());
  EXPECT_GE(left_open, rounds / 2) << "the kills came too late or too early to try anything";
  testing::Test::RecordProperty("entries_kept", std::to_string(kept));
  testing::Test::RecordProperty("kept_but_not_acknowledged", unacknowledged);
}

void look_while_it_runs_and_after() {
  const Scratch scratch;
  const Child child = start(append_program, scratch.file());
  EXPECT_EQ(next_number(child.acknowledgements), 1);
  EXPECT_FALSE(wal_tail_of(scratch.file()).left_open) << "a file in use was taken for one left behind";
  kill(child.id, SIGKILL);
  waitpid(child.id, nullptr, 0);
  close(child.acknowledgements);
  const WalTail tail = wal_tail_of(scratch.file());
  EXPECT_TRUE(tail.left_open);
  EXPECT_GT(tail.whole, 0);
  EXPECT_EQ(tail.lost, 0);
}

void kill_packing_and_look(int rounds, unsigned seed) {
  const Scratch scratch;
  const std::filesystem::path packed = scratch.folder() / "wall.packed";
  {
    Store store(scratch.file());
    const JobId job = add_wall(store);
    for (std::int64_t number = 1; number <= 12; ++number)
      store.keep_photograph(job, store.append(job, numbered_entry(number)).entry.id,
                            numbered_photograph(number), at_minute(number));
    const PlanId plan = store.put_plan(plan_for(store, job));
    store.put_sheet({job, plan, "morning", {}, std::string(200'000, 's')});
    write_new_file(packed, store.pack(job, "wall", "0.1.0", at_minute(9)).bytes);
  }
  const std::string whole = read_whole_file(packed);
  std::mt19937 random(seed);
  int whole_jobs = 0;
  int no_jobs = 0;
  for (int round = 0; round < rounds; ++round) {
    SCOPED_TRACE(round);
    const std::filesystem::path folder = scratch.folder() / ("round-" + std::to_string(round));
    make_private_folder(folder);
    const Child child = start(pack_program, packed, folder.string());
    if (random() % 2 == 0) (void)next_number(child.acknowledgements);
    spin(static_cast<std::uint32_t>(random() % 24'000'000));
    kill(child.id, SIGKILL);
    std::int64_t acknowledged = 0;
    for (std::int64_t number = next_number(child.acknowledgements); number != 0;
         number = next_number(child.acknowledgements))
      acknowledged = number;
    close(child.acknowledgements);
    int status = 0;
    waitpid(child.id, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "it ended by itself with " << WEXITSTATUS(status);
    for (std::int64_t number = 1; std::filesystem::exists(folder / std::to_string(number)); ++number) {
      const std::filesystem::path place = folder / std::to_string(number);
      Store store(place / "record.db");
      store.check_whole();
      const auto job = store.job("wall");
      EXPECT_TRUE(!job || store.lost_photographs(job->id).empty()) << "a row came before its photograph";
      EXPECT_TRUE(job || number > acknowledged) << "a job that was said to be in is not";
      const std::string now = job ? store.pack(job->id, "wall", "0.1.0", at_minute(9)).bytes : whole;
      EXPECT_TRUE(now == whole) << "a job that is half there";
      EXPECT_TRUE(job || store.forecasts_since("wall", base::Instant::min()).empty());
      ++(job ? whole_jobs : no_jobs);
      const std::filesystem::path again = place / "again.packed";
      if (std::filesystem::exists(again)) {
        EXPECT_TRUE(read_whole_file(again) == whole) << "a file that is half there";
      } else {
        EXPECT_GT(number, acknowledged);
      }
      // Whatever it left, the next one goes through.
      EXPECT_EQ(store.unpack(whole, packed, {}).fresh, !job);
    }
  }
  EXPECT_GT(whole_jobs, 0);
  testing::Test::RecordProperty("killed_before_the_job_was_in", no_jobs);
}

}  // namespace weatherstruck::record
