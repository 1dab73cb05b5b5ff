#include "psplib.h"

#include <algorithm>
#include <charconv>
#include <sstream>
#include <stdexcept>
#include <vector>

namespace weatherstruck::bench {
namespace {

using engine::Tick;

[[noreturn]] void refuse(std::size_t line, const std::string& what) {
  throw std::runtime_error("line " + std::to_string(line) + ": " + what);
}

struct Line {
  std::size_t number;
  std::string text;
};

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  std::istringstream in{std::string(text)};
  std::string line;
  for (std::size_t number = 1; std::getline(in, line); ++number) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    lines.push_back({number, line});
  }
  return lines;
}

// The whole numbers of a line; brackets around one are no matter.
std::vector<int> numbers_of(const Line& line) {
  std::string text = line.text;
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '[' || c == ']'; }, ' ');
  std::vector<int> numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    if (*at == ' ' || *at == '\t') {
      ++at;
      continue;
    }
    int number = 0;
    const auto [next, error] = std::from_chars(at, end, number);
    if (error != std::errc{} || number < -1'000'000 || number > 1'000'000)
      refuse(line.number, "no whole number up to a million: \"" + line.text + "\"");
    numbers.push_back(number);
    at = next;
  }
  return numbers;
}

// Goes through the lines one by one.
class Reader {
 public:
  explicit Reader(std::string_view text) : lines_(lines_of(text)) {}
  void skip_to(std::string_view heading, std::size_t then) {
    while (next_ < lines_.size() && lines_[next_].text.rfind(heading, 0) != 0)
      ++next_;
    if (next_ >= lines_.size()) refuse(lines_.size(), "no \"" + std::string(heading) + "\" up to here");
    next_ += then;
  }
  [[nodiscard]] bool at_numbers() const {
    return next_ < lines_.size() && lines_[next_].text.find_first_of("0123456789") != std::string::npos &&
           lines_[next_].text.find('*') == std::string::npos;
  }
  std::vector<int> numbers(std::size_t least) {
    if (next_ >= lines_.size()) refuse(lines_.size(), "the text ends too soon");
    std::vector<int> list = numbers_of(lines_[next_]);
    if (list.size() < least)
      refuse(lines_[next_].number,
             std::to_string(list.size()) + " numbers, at least " + std::to_string(least) + " are wanted");
    ++next_;
    return list;
  }
  [[nodiscard]] std::size_t line() const { return next_ == 0 ? 1 : lines_[next_ - 1].number; }

 private:
  std::vector<Line> lines_;
  std::size_t next_ = 0;
};

}  // namespace

engine::Project read_sm(std::string_view text) {
  Reader in(text);
  engine::Project project;
  in.skip_to("PRECEDENCE RELATIONS", 2);
  while (in.at_numbers()) {
    const std::vector<int> row = in.numbers(3);
    if (row[2] < 0 || row.size() != static_cast<std::size_t>(row[2]) + 3)
      refuse(in.line(), "another number of successors than it says");
    std::vector<int> after;
    for (std::size_t k = 3; k < row.size(); ++k)
      after.push_back(row[k] - 1);
    project.successors.push_back(std::move(after));
  }
  in.skip_to("REQUESTS/DURATIONS", 3);
  for (std::size_t i = 0; i < project.successors.size(); ++i) {
    const std::vector<int> row = in.numbers(3);
    project.duration.push_back(row[2]);
    project.demand.emplace_back(row.begin() + 3, row.end());
  }
  in.skip_to("RESOURCEAVAILABILITIES", 2);
  project.capacity = in.numbers(1);
  if (const auto faults = faults_of(project); !faults.empty()) throw std::runtime_error(faults.front());
  return project;
}

engine::Network read_sch(std::string_view text) {
  Reader in(text);
  const std::vector<int> head = in.numbers(2);
  if (head[0] < 0 || head[0] > 10'000 || head[1] < 0) refuse(1, "no numbers of tasks and resources");
  const std::size_t tasks = static_cast<std::size_t>(head[0]) + 2;
  struct Lag {
    int from, to, ticks;
  };
  std::vector<Lag> lags;
  Tick horizon = 2;
  for (std::size_t i = 0; i < tasks; ++i) {
    const std::vector<int> row = in.numbers(3);
    const auto after = static_cast<std::size_t>(std::max(0, row[2]));
    if (row.size() != 3 + 2 * after) refuse(in.line(), "another number of successors and lags than it says");
    for (std::size_t k = 0; k < after; ++k) {
      const int to = row[3 + k];
      if (to < 0 || static_cast<std::size_t>(to) >= tasks) refuse(in.line(), "a successor that is no task");
      lags.push_back({static_cast<int>(i), to, row[3 + after + k]});
    }
  }
  engine::Project project;
  for (std::size_t i = 0; i < tasks; ++i) {
    const std::vector<int> row = in.numbers(3);
    project.duration.push_back(row[2]);
    project.successors.emplace_back();
    project.demand.emplace_back(row.begin() + 3, row.end());
    int longest = row[2];
    for (const Lag& lag : lags) {
      if (lag.from == static_cast<int>(i)) longest = std::max(longest, lag.ticks);
    }
    horizon += longest;
  }
  project.capacity = in.numbers(1);
  // Some instances ask for more than there is, and so have no schedule: no fault of the text.
  for (std::size_t i = 0; i < tasks; ++i) {
    if (project.duration[i] < 0 || project.demand[i].size() != project.capacity.size() ||
        std::any_of(project.demand[i].begin(), project.demand[i].end(), [](int d) { return d < 0; }))
      refuse(in.line(), "a task that takes less than nothing or has other resources than there are");
  }
  engine::Network network = network_of(project, horizon);
  for (const Lag& lag : lags) {
    engine::Link link;
    link.from_edge = engine::Edge::start;
    link.from = lag.ticks >= 0 ? lag.from : lag.to;
    link.to = lag.ticks >= 0 ? lag.to : lag.from;
    (lag.ticks >= 0 ? link.least_clock : link.most_clock) = 0;
    (lag.ticks >= 0 ? link.least : link.most) = std::abs(lag.ticks);
    network.links.push_back(link);
  }
  return network;
}

std::map<std::string, Known> read_known(std::string_view text) {
  std::map<std::string, Known> table;
  for (const Line& line : lines_of(text)) {
    if (line.number == 1 || line.text.empty()) continue;
    std::vector<std::string> cells;
    std::istringstream in(line.text);
    for (std::string cell; std::getline(in, cell, ',');)
      cells.push_back(cell);
    const auto number = [&](std::size_t k) {
      if (cells[k] == "unsat") return -1;
      const std::vector<int> list = numbers_of({line.number, cells[k]});
      if (list.size() != 1) refuse(line.number, "\"" + cells[k] + "\" is no number");
      return list.front();
    };
    if (cells.size() >= 4) {
      table[cells[0]] = {number(1), number(2), number(3)};
    } else if (cells.size() == 2) {
      table[cells[0].substr(0, cells[0].find('.'))] = {0, number(1), number(1)};
    } else {
      refuse(line.number, "no row of a table of known values: \"" + line.text + "\"");
    }
  }
  return table;
}

}  // namespace weatherstruck::bench
