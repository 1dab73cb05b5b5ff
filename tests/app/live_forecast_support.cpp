#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <stdexcept>

#include "app/live_forecast.h"
#include "app/run_binary.h"
#include "feed/bad_answers.h"

namespace weatherstruck::app {
namespace {

constexpr base::Instant departure =
    std::chrono::sys_days(std::chrono::year(2026) / 2 / 9) + std::chrono::hours(5);

// A plain function is all that the program takes for a clock.
base::Instant machine_time = departure;
base::Instant machine_clock() {
  return machine_time;
}

// Invented.
std::string job_at(double latitude, double longitude, double altitude) {
  return fmt::format(R"({{"weatherstruck": 1, "job": {{"name": "bed", "title": "A bed"}},
"site": {{"latitude": {}, "longitude": {}, "altitude": {}, "zone": "Europe/London", "soil": "garden",
  "routes": [{{"name": "gate", "length": 20, "rise": 0, "narrowest": 1}}]}},
"trip": {{"leave_home": "2026-02-09T05:00", "home_by": "2026-02-11T21:00", "drive_out": 2, "drive_back": 2}},
"kit": {{"hessian": 20, "sheet": 30}},
"parts": [{{"kind": "bed", "name": "bed", "length": 2, "width": 0.9, "courses": 3}}]}})",
                     latitude, longitude, altitude);
}

std::string flat(const std::string& text) {
  std::string out;
  std::istringstream words(text);
  for (std::string word; words >> word;)
    out += (out.empty() ? "" : " ") + word;
  return out;
}

}  // namespace

LiveProgram::LiveProgram()
    : good_(text_of(in_source("fixtures/demo/forecast-day1.json"))), server(feed::always("")) {
  machine_time = departure;
  server.behave(feed::always(good_answer()));
  network.address = server.address();
  network.limits.whole = std::chrono::seconds(20);
  network.passed = [this] { return std::chrono::seconds(passed_); };
  store().put_person(text_of(in_source("tests/files/complete_me.json")), 1, machine_time);
  move_to(52.06, -3.61, 180);
}

void LiveProgram::move_to(double latitude, double longitude, double altitude) {
  const std::string file = (scratch_.folder() / "job.json").string();
  record::write_bytes(file, job_at(latitude, longitude, altitude));
  std::vector<std::string> words{"job", "add", file};
  if (store().job("bed")) words.emplace_back("--replace");
  if (say(words).code != ExitCode::ok) throw std::runtime_error("the job was not kept");
  std::filesystem::remove(file);
  place_ = fmt::format("{:.4f},{:.4f}", latitude, longitude);
}

Said LiveProgram::say(const std::vector<std::string>& words) {
  Said said;
  Network reached = network;
  reached.sleep = [&](std::chrono::milliseconds pause) {
    said.pauses.push_back(pause);
    takes(std::chrono::ceil<std::chrono::seconds>(pause));
  };
  std::ostringstream out;
  std::ostringstream err;
  std::istringstream in;
  const std::size_t before = server.requests().size();
  said.code = run_program(words, {out, err, false, true, machine_clock, "9.9", in, false,
                                  [this] { return scratch_.file(); }, reached});
  said.requests = server.requests().size() - before;
  machine_time += std::chrono::seconds(passed_.exchange(0));
  said.out = flat(out.str());
  said.err = flat(err.str());
  return said;
}

void LiveProgram::keep_a_good_one() {
  const Said first = say({"plan", "bed"});
  const bool well = first.code == ExitCode::ok && first.requests == 1 && line(first).empty() &&
                    first.out.find("last good") == std::string::npos;
  if (!well || bodies() != std::vector<std::string>{good_})
    throw std::runtime_error("no good one to begin with: " + first.err);
}

std::string LiveProgram::line(const Said& said) const {
  const std::string where =
      "Forecasts come from " + network.address + " (WEATHERSTRUCK_SERVICE), not from the service itself.";
  if (said.err.rfind(where, 0) != 0) throw std::runtime_error("it does not name the server: " + said.err);
  return said.err.size() > where.size() ? said.err.substr(where.size() + 1) : "";
}

base::Instant LiveProgram::time() {
  return machine_time;
}

void LiveProgram::later(std::chrono::seconds by) {
  machine_time += by;
}

std::vector<std::string> LiveProgram::bodies() const {
  std::vector<std::string> out;
  for (const record::Forecast& kept : store().forecasts_since(place_, base::Instant::min()))
    out.push_back(kept.body);
  return out;
}

std::vector<std::string> LiveProgram::files() const {
  std::vector<std::string> out;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(scratch_.folder())) {
    if (!entry.is_directory()) out.push_back(entry.path().filename().string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::string LiveProgram::good_answer() const {
  return feed::whole("200 OK", good_,
                     "Content-Type: application/json\r\nLast-Modified: Mon, 09 Feb 2026 04:43:07 GMT\r\n"
                     "Date: Mon, 09 Feb 2026 05:00:00 GMT\r\nExpires: Mon, 09 Feb 2026 05:31:00 GMT\r\n");
}

}  // namespace weatherstruck::app
