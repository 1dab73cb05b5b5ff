#pragma once
// The facts behind moves: how two plans and the book stand to each other, task by task. For moves.cpp only.
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "weatherstruck/programme/moves.h"

namespace weatherstruck::programme::moves {

constexpr std::chrono::minutes as_planned{15};  ///< nearer than this a time is the planned one

/// What is known of why; `cause` is an index into the list.
struct Why {
  Fact fact = Fact::room;
  std::optional<std::size_t> cause;
  Span span{};
  std::string text;
};

struct State {
  const works::Task* task = nullptr;
  const PlannedTask* before = nullptr;  ///< nullptr: the earlier plan did not know it
  const PlannedTask* after = nullptr;
  [[nodiscard]] bool was_placed() const { return before != nullptr && before->placed(); }
  [[nodiscard]] bool is_placed() const { return after != nullptr && after->placed(); }
};

/// Looks into the request, which has to outlive it.
class Facts {
 public:
  explicit Facts(const MoveRequest& request);

  [[nodiscard]] const std::vector<State>& states() const { return states_; }
  [[nodiscard]] std::optional<std::size_t> index(const works::Name& name) const;
  [[nodiscard]] std::optional<std::size_t> drive_home() const;
  [[nodiscard]] bool begun(std::size_t i) const;
  /// Start of what the new plan still has to do; and of the same in the earlier plan.
  [[nodiscard]] std::optional<base::Instant> still(std::size_t i) const;
  [[nodiscard]] std::optional<base::Instant> was(std::size_t i) const;

  [[nodiscard]] Why later(std::size_t i, base::Instant from, base::Instant to) const;
  [[nodiscard]] Why earlier(std::size_t i, base::Instant from, base::Instant to) const;
  [[nodiscard]] Why left_out(std::size_t i) const;
  [[nodiscard]] Why taken_in(std::size_t i) const;
  [[nodiscard]] Why other_way(std::size_t i) const;

 private:
  using Seen = std::set<std::size_t>;
  [[nodiscard]] std::string clock(base::Instant t) const;
  [[nodiscard]] std::string hours(const Span& span) const;
  [[nodiscard]] std::string quoted(std::size_t i) const;
  [[nodiscard]] Why by_weather(const Reason& reason) const;
  [[nodiscard]] std::optional<Why> stood_down(base::Instant from, base::Instant to) const;
  [[nodiscard]] std::optional<Why> short_of(std::size_t i) const;
  [[nodiscard]] std::optional<Why> levels(std::size_t i) const;
  [[nodiscard]] std::optional<std::size_t> late_before(std::size_t i) const;
  [[nodiscard]] bool runs_late(std::size_t i) const;
  [[nodiscard]] std::optional<std::size_t> at_work(base::Instant t, std::size_t self) const;
  [[nodiscard]] Why later(std::size_t i, base::Instant from, base::Instant to, Seen& seen) const;
  [[nodiscard]] Why late_end(std::size_t i, Seen& seen) const;
  [[nodiscard]] Why not_yet(std::size_t i, base::Instant from) const;
  [[nodiscard]] std::optional<std::size_t> early_before(std::size_t i) const;

  const MoveRequest& request_;
  std::vector<State> states_;
};

}  // namespace weatherstruck::programme::moves
