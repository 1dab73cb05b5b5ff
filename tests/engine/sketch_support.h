#pragma once
// A small job written down like a table: clocks as strings of one digit an hour, tasks and keeps as chains of
// what they take. One tick is an hour, unless said otherwise.
#include <initializer_list>
#include <string>
#include <vector>

#include "weatherstruck/engine/network.h"

namespace weatherstruck::engine::brute {

class TaskSketch {
 public:
  TaskSketch(Network& network, TaskId id) : network_(&network), id_(id) {}
  operator TaskId() const { return id_; }

  // Of the way that was named last.
  TaskSketch& setup(Amount amount);
  TaskSketch& may_stop_at(std::vector<Amount> breaks);
  TaskSketch& may_stop_at_every_course();
  TaskSketch& may_stop_anywhere();
  TaskSketch& by(ResourceId who, int how_many = 1);
  TaskSketch& under(StatefulId stateful, int state);
  TaskSketch& within(Tick longest_span);
  /// From each run's end, while `until_amount` goes by on `until`, at most `most` of `exposure`.
  TaskSketch& guard(ClockId until, Amount until_amount, ClockId exposure, Amount most);
  TaskSketch& start_guard(ClockId until, Amount until_amount, ClockId exposure, Amount most);
  TaskSketch& costs(ClockId clock, Amount weight);
  /// Another way of doing it.
  TaskSketch& or_by(ClockId clock, Amount amount);

  // Of the task.
  TaskSketch& lays(KeepId keep, Amount units = 1, int layer = 0);
  TaskSketch& works_on(KeepId keep);
  TaskSketch& closes(KeepId keep);
  TaskSketch& due(Tick tick);
  TaskSketch& not_before(Tick tick);
  TaskSketch& should();
  TaskSketch& may();
  TaskSketch& only_if(TaskId task, int way);

 private:
  Task& task();
  Way& way() { return task().ways.back(); }
  Network* network_;
  TaskId id_;
};

class KeepSketch {
 public:
  KeepSketch(Network& network, KeepId id) : network_(&network), id_(id) {}
  operator KeepId() const { return id_; }
  /// While `amount` goes by on `until` after a stop, at most `most` of `exposure` where it lies bare. Name
  /// the hazards before the covers.
  KeepSketch& harmed_by(const std::string& name, ClockId until, Amount amount, ClockId exposure, Amount most);
  /// A cover that lets nothing through; it takes `area`, cures on `cure`, and hardens against the hazards on
  /// the clocks they have where it lies bare.
  KeepSketch& cover(const std::string& name, ClockId cure, std::vector<Need> area);
  // Of the cover that was named last.
  KeepSketch& takes(Tick on, Tick off, std::vector<Need> hands);
  KeepSketch& hardens_on(ClockId until);
  KeepSketch& lets_through(ClockId exposure);
  KeepSketch& stands_while(StatefulId stateful, int state);
  /// At most `limit` units laid while `firm` goes by on the clock.
  KeepSketch& green(ClockId clock, Amount firm, Amount limit);

 private:
  Keep& keep();
  CoverWay& way() { return keep().ways.back(); }
  Network* network_;
  KeepId id_;
};

class Sketch {
 public:
  explicit Sketch(int hours);
  Network network;

  /// One digit for each hour; blanks only to read by.
  ClockId clock(const std::string& name, const std::string& rates);
  ResourceId people(const std::string& name, int how_many);
  ResourceId people(const std::string& name, const std::string& how_many_each_hour);
  /// The first day has that many hours; the limits are for each day.
  void hours_a_day(ResourceId who, int first_day, std::initializer_list<Tick> limits);
  StatefulId stateful(const std::string& name, std::vector<std::vector<Tick>> change,
                      const std::vector<std::string>& allowed, std::vector<Need> hands);
  TaskSketch task(const std::string& name, ClockId clock, Amount amount);
  KeepSketch keep(const std::string& name, ClockId cure);
  /// `to` starts after `from` has ended; more of the link can be set on what is returned.
  Link& after(TaskId from, TaskId to);
  void cured(KeepId keep, TaskId to, Amount least);

 private:
  [[nodiscard]] std::vector<int> digits(const std::string& text) const;
};

}  // namespace weatherstruck::engine::brute
