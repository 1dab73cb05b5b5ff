#pragma once
// The engine's checker at work: shape, states and resources (check.cpp), tasks and links (check_tasks.cpp),
// keeps (check_keeps.cpp). It includes nothing of the decoder.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ids.h"
#include "weatherstruck/engine/check.h"

namespace weatherstruck::engine {

class Checker {
 public:
  Checker(const Network& network, const Schedule& schedule);
  std::vector<Violation> run();

 private:
  void broken(Rule rule, std::string what);
  [[nodiscard]] const Clock& clock(ClockId id) const;
  [[nodiscard]] const Way& way_of(std::size_t task) const;
  void check_shape();
  void place_states();
  void want_state(const std::optional<StateNeed>& need, Tick from, Tick to, const std::string& who);
  void check_task(std::size_t i);
  void check_amount(const Task& task, const Way& way, const Run& run, Amount done, bool last);
  [[nodiscard]] Tick edge(TaskId task, Edge which) const;
  void check_link(const Link& link);
  void check_keep(std::size_t k);
  [[nodiscard]] std::vector<char> closed_in(std::size_t k) const;
  [[nodiscard]] std::vector<char> sheltered_in(std::size_t k) const;
  [[nodiscard]] std::vector<char> laying_on(std::size_t k, TaskId but, Tick since = 0, int layer = -1) const;
  void check_hazards(std::size_t k, int layer, const std::vector<int>& in_force);
  void check_cure(std::size_t k, const CureLink& link, const std::vector<int>& in_force);
  void check_green(std::size_t k, const Green& green, const std::vector<char>& laying);
  [[nodiscard]] Amount done_by(std::size_t task, Tick t) const;
  void check_resources();

  const Network& net_;
  const Schedule& plan_;
  std::vector<std::vector<int>> state_;
  std::vector<Violation> found_;
};

}  // namespace weatherstruck::engine
