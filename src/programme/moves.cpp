#include "weatherstruck/programme/moves.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <tuple>
#include <utility>

#include "moves_why.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using moves::State;
using moves::Why;

constexpr std::chrono::minutes small_move{30};  // what nobody need be told

class Teller {
 public:
  explicit Teller(const MoveRequest& request) : request_(request), facts_(request) {}

  [[nodiscard]] std::vector<Move> tell() const {
    std::vector<Move> moves;
    for (std::size_t i = 0; i < facts_.states().size(); ++i) {
      if (i == facts_.drive_home()) continue;  // home says it
      if (auto move = move_of(i)) moves.push_back(std::move(*move));
    }
    for (const PlannedTask& gone : request_.before.tasks) {
      if (auto move = fell_away(gone)) moves.push_back(std::move(*move));
    }
    std::stable_sort(moves.begin(), moves.end(),
                     [&](const Move& a, const Move& b) { return rank(a) < rank(b); });
    std::vector<Move> told;
    if (auto home = home_move(moves)) told.push_back(std::move(*home));
    const std::size_t most = told.size() + request_.most;
    const std::size_t first = told.size();
    for (Move& move : moves) {
      const auto same = std::find_if(told.begin() + static_cast<std::ptrdiff_t>(first), told.end(),
                                     [&](const Move& other) { return by_one_fact(other, move); });
      if (same != told.end()) {
        same->with.push_back(std::move(move.task));
      } else if (told.size() < most) {
        told.push_back(std::move(move));
      }
    }
    return told;
  }

 private:
  using Rank = std::tuple<int, int, std::int64_t>;

  /// One rain holds up several for different parts of itself: the limit and its end say which it is.
  static bool by_one_fact(const Move& a, const Move& b) {
    if (a.kind != b.kind || a.fact != b.fact || a.cause != b.cause) return false;
    if (a.fact != Fact::weather || a.span.to != b.span.to) return a.text == b.text;
    const auto limit = [](const Move& move) { return move.text.substr(0, move.text.rfind(", ")); };
    return limit(a) == limit(b);
  }

  [[nodiscard]] std::optional<Move> move_of(std::size_t i) const {
    const State& state = facts_.states()[i];
    if (state.after == nullptr || !state.after->present) return std::nullopt;
    Move move;
    move.task = state.task->name;
    move.title = works::short_title(*state.task);
    move.from = facts_.was(i);
    move.to = facts_.still(i);
    Why why;
    if (!state.is_placed()) {
      if (!state.was_placed()) return std::nullopt;
      move.kind = Move::Kind::left_out;
      why = facts_.left_out(i);
    } else if (!move.to) {
      return std::nullopt;  // done
    } else if (!state.was_placed()) {
      // Another way of the task it belongs to is told there.
      if (state.before != nullptr && !state.before->present) return std::nullopt;
      if (facts_.begun(i)) return std::nullopt;
      move.kind = Move::Kind::taken_in;
      why = facts_.taken_in(i);
    } else {
      move.other_day = request_.zone.day_of(*move.from) != request_.zone.day_of(*move.to);
      const auto shift = *move.to - *move.from;
      const bool moved = move.other_day || shift > small_move || shift < -small_move;
      const bool other_way = !facts_.begun(i) && state.before->way != state.after->way;
      if (other_way) move.way = state.after->way_title;
      if (!moved && !other_way) return std::nullopt;
      move.kind = !moved              ? Move::Kind::other_way
                  : shift.count() > 0 ? Move::Kind::later
                                      : Move::Kind::earlier;
      if (move.kind == Move::Kind::later) why = facts_.later(i, *move.from, *move.to);
      if (move.kind == Move::Kind::earlier) why = facts_.earlier(i, *move.from, *move.to);
      if (move.kind == Move::Kind::other_way) why = facts_.other_way(i);
    }
    put(move, std::move(why));
    return move;
  }

  /// Work of the earlier plan that the list does not have any more: levels changed the courses.
  std::optional<Move> fell_away(const PlannedTask& gone) const {
    if (facts_.index(gone.task) || !gone.placed() || gone.finish() <= request_.now) return std::nullopt;
    Move move;
    move.kind = Move::Kind::left_out;
    move.task = gone.task;
    move.title = gone.task;
    std::replace(move.title.begin(), move.title.end(), '-', ' ');
    move.from = gone.start();
    move.fact = Fact::levels;
    move.text = "the job does not come to it any more";
    return move;
  }

  [[nodiscard]] std::optional<Move> home_move(const std::vector<Move>& moves) const {
    const auto& before = request_.before.home;
    const auto& after = request_.after.home;
    if (!before && !after) return std::nullopt;
    if (before && after && *after - *before <= small_move && *before - *after <= small_move)
      return std::nullopt;
    Move move;
    move.kind = Move::Kind::home;
    move.title = "Home";
    move.from = before;
    move.to = after;
    move.other_day = before && after && request_.zone.day_of(*before) != request_.zone.day_of(*after);
    const auto drive = facts_.drive_home();
    Why why;
    why.text = after ? "the work ends at another time" : "no drive home could be placed";
    const auto from = drive ? facts_.was(*drive) : std::nullopt;
    const auto to = drive ? facts_.still(*drive) : std::nullopt;
    if (from && to) why = *to > *from ? facts_.later(*drive, *from, *to) : facts_.earlier(*drive, *from, *to);
    if (after && (!before || *after < *before)) {
      const auto left_out = std::find_if(
          moves.begin(), moves.end(), [](const Move& other) { return other.kind == Move::Kind::left_out; });
      if (left_out != moves.end()) {
        why = {};
        why.text = "\"" + left_out->title + "\" is left out";
      }
    }
    put(move, std::move(why));
    return move;
  }

  void put(Move& move, Why why) const {
    move.fact = why.fact;
    if (why.cause) move.cause = facts_.states()[*why.cause].task->name;
    move.span = why.span;
    move.text = std::move(why.text);
  }

  [[nodiscard]] Rank rank(const Move& move) const {
    const auto i = facts_.index(move.task);
    const int importance = i ? static_cast<int>(facts_.states()[*i].task->importance) : 0;
    std::int64_t shift = 0;
    if (move.from && move.to) shift = std::abs((*move.to - *move.from).count());
    int kind = 3;
    if (move.kind == Move::Kind::left_out) kind = 0;
    if (move.kind == Move::Kind::taken_in) kind = 1;
    if (move.other_day) kind = 2;
    if (move.kind == Move::Kind::other_way) kind = 4;
    return {kind, importance, -shift};
  }

  const MoveRequest& request_;
  moves::Facts facts_;
};

}  // namespace

std::vector<Move> moves_between(const MoveRequest& request) {
  return Teller(request).tell();
}

}  // namespace weatherstruck::programme
