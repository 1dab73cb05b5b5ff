// What lies on site: fresh pieces and what is over them, from the site book or from a plan that was followed.
#include <algorithm>
#include <set>

#include "site_check_view.h"
#include "weatherstruck/programme/damage.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/spoken.h"

namespace weatherstruck::programme {
namespace {

using base::Instant;
using Kind = works::FreshWork::Kind;
using works::Name;

// A dinner or another mix; our choice.
constexpr std::chrono::hours longest_break{1};
constexpr double enough = 1e-6;  ///< of an amount: sums of courses are not exact

/// Whether bricks of `part` are laid on the concrete of `strip`, by the waits of the list.
bool built_on(const works::TaskList& list, const Name& part, const Name& strip) {
  return std::any_of(list.links.begin(), list.links.end(), [&](const works::Link& link) {
    if (link.wait != works::Wait::concrete_to_lay && link.wait != works::Wait::concrete_to_lay_box &&
        link.wait != works::Wait::concrete_to_lay_high) {
      return false;
    }
    const works::Task* from = list.find(link.from);
    const works::Task* to = list.find(link.to);
    return from != nullptr && to != nullptr && from->part == strip && to->part == part &&
           site::is_concrete(*from);
  });
}

/// One wall of a run of walls, one footing of a ring.
struct Element {
  Name name;
  std::string title;
  double length = 0;
  std::set<Name> names;  ///< a cover on any of these is on it
};

class Pieces {
 public:
  Pieces(const works::Job& job, const works::TaskList& list, const Plan& done, Instant now)
      : list_(list), done_(done), now_(now), expansion_(works::expand(job)) {
    for (const PlannedTask& planned : done.tasks) {
      const works::Task* task = list.find(planned.task);
      if (task != nullptr && task->fresh) add(*task, planned);
    }
    sort();
    merge();
    for (FreshPiece& piece : pieces_) {
      if (piece.kind == Kind::concrete) piece.covered = first_bricks_on(piece.part);
    }
  }

  std::vector<FreshPiece> take() {
    sort();
    std::stable_sort(pieces_.begin(), pieces_.end(), [](const FreshPiece& a, const FreshPiece& b) {
      return a.laid.to != b.laid.to ? a.laid.to < b.laid.to : a.part < b.part;
    });
    return std::move(pieces_);
  }

  void cover_as_planned(const Plan& plan) {
    for (FreshPiece& piece : pieces_) {
      const bool concrete = piece.kind == Kind::concrete;
      for (const PlannedCover& cover : plan.covers) {
        if (cover.kind == trade::CoverKind::bare) continue;
        const bool own = cover.part == piece.part && cover.concrete == concrete;
        if (own || (concrete && !cover.concrete && built_on(list_, cover.part, piece.part)))
          piece.over.push_back({cover.kind, cover.span});
      }
      for (const CanopySitting& sitting : plan.canopy) {
        if (sitting.part == piece.of) piece.over.push_back({trade::CoverKind::canopy, sitting.over});
      }
      put_in_order(piece.over);
    }
  }

  void cover_as_logged(const std::vector<works::Cover>& covers, const std::vector<works::Cover>& canopy) {
    std::vector<FreshPiece> made;
    for (const FreshPiece& piece : pieces_) {
      const std::vector<Element> elements = elements_of(piece);
      std::set<Name> whole = {piece.part, piece.of};
      for (const works::Task& task : list_.tasks) {
        if (piece.kind == Kind::concrete && !task.part.empty() && built_on(list_, task.part, piece.part))
          whole.insert({task.part, task.of});
      }
      double length = 0;
      if (elements.size() > 1) {
        for (const Element& element : elements) {
          whole.erase(element.name);
          length += element.length;
        }
      }
      const auto over = [&](const std::set<Name>& more) {
        std::vector<OverIt> lying;
        for (const auto* logged : {&covers, &canopy}) {
          for (const works::Cover& cover : *logged) {
            if (whole.count(cover.part) == 0 && more.count(cover.part) == 0) continue;
            const Instant to = cover.to.value_or(Instant::max());
            lying.push_back(
                {cover.kind, {cover.from, logged == &canopy ? to : off_by(piece, cover.from, to)}});
          }
        }
        put_in_order(lying);
        return lying;
      };
      std::vector<std::vector<OverIt>> each;
      for (const Element& element : elements)
        each.push_back(over(element.names));
      const bool alike = std::adjacent_find(each.begin(), each.end(), std::not_equal_to<>()) == each.end();
      if (elements.size() <= 1 || alike) {
        made.push_back(piece);
        made.back().over = each.empty() ? over({}) : each.front();
        continue;
      }
      for (std::size_t i = 0; i < elements.size(); ++i) {
        FreshPiece part = piece;
        part.part = elements[i].name;
        part.title = elements[i].title;
        if (part.unit != "courses" && part.unit != "strip" && length > 0)
          part.amount *= elements[i].length / length;
        part.over = each[i];
        made.push_back(std::move(part));
      }
    }
    pieces_ = std::move(made);
  }

 private:
  void add(const works::Task& task, const PlannedTask& planned) {
    int courses = 0;
    for (const PlannedRun& run : planned.runs) {
      const int laid = run.courses_after - courses;
      courses = run.courses_after;
      if (run.span.from >= now_) continue;
      FreshPiece piece;
      piece.part = task.part;
      piece.of = task.of;
      piece.kind = task.fresh->kind;
      piece.mortar = task.fresh->mortar;
      piece.quick_suction = task.fresh->quick_suction;
      piece.strip = task.fresh->strip;
      piece.title = title_of(task);
      piece.laid = {run.span.from, std::min(run.span.to, now_)};
      if (piece.kind == Kind::concrete) {
        const bool flight = std::any_of(expansion_.flights.begin(), expansion_.flights.end(),
                                        [&](const works::Steps& steps) { return steps.name == task.part; });
        piece.amount = 1;
        piece.unit = flight ? "base" : "strip";
      } else if (!task.courses.empty()) {
        piece.amount = run.share > 0 ? std::max(1, laid) : 0;
        piece.unit = "courses";
      } else {
        piece.amount = run.share * task.amount;
        piece.unit = task.unit;
      }
      pieces_.push_back(std::move(piece));
    }
  }

  [[nodiscard]] std::string title_of(const works::Task& task) const {
    std::string of = "the " + works::spoken(task.of);
    for (const works::Group& group : expansion_.groups) {
      if (group.of == task.of) of = group.title;
    }
    switch (task.fresh->kind) {
      case Kind::concrete:
        for (const works::FootingPart& footing : expansion_.footings) {
          if (footing.shape.name == task.part) return "the " + footing.title;
        }
        return "the concrete of " + of;
      case Kind::mortar_below:
      case Kind::mortar_facing:
        return "the brickwork of " + of;
      case Kind::pointing:
        return "the pointing of " + of;
      case Kind::plate_bed:
        return (task.operation == trade::Operation::lay_coping ? "the coping of " : "the plates of ") + of;
      case Kind::flags:
        return "the flags of " + of;
      case Kind::grout:
        return "the joints of " + of;
    }
    return of;
  }

  void sort() {
    std::stable_sort(pieces_.begin(), pieces_.end(), [](const FreshPiece& a, const FreshPiece& b) {
      if (a.part != b.part) return a.part < b.part;
      if (a.kind != b.kind) return a.kind < b.kind;
      return a.laid.from < b.laid.from;
    });
  }

  void merge() {
    std::vector<FreshPiece> made;
    for (FreshPiece& piece : pieces_) {
      const bool goes_on = !made.empty() && made.back().part == piece.part &&
                           made.back().kind == piece.kind && made.back().title == piece.title &&
                           piece.laid.from - made.back().laid.to <= longest_break;
      if (!goes_on) {
        made.push_back(std::move(piece));
        continue;
      }
      made.back().laid.to = std::max(made.back().laid.to, piece.laid.to);
      if (piece.kind != Kind::concrete) made.back().amount += piece.amount;
    }
    pieces_ = std::move(made);
  }

  [[nodiscard]] std::optional<Instant> first_bricks_on(const Name& strip) const {
    std::optional<Instant> first;
    for (const PlannedTask& planned : done_.tasks) {
      const works::Task* task = list_.find(planned.task);
      if (task == nullptr || !task->fresh || site::is_concrete(*task) || !planned.placed()) continue;
      if (planned.start() >= now_) continue;
      if (task->part != strip && !built_on(list_, task->part, strip)) continue;
      if (!first || planned.start() < *first) first = planned.start();
    }
    return first;
  }

  [[nodiscard]] std::vector<Element> elements_of(const FreshPiece& piece) const {
    std::vector<Element> elements;
    for (const works::Group& group : expansion_.groups) {
      if (piece.kind == Kind::concrete) {
        for (const std::size_t f : group.footings) {
          const works::FootingPart& footing = expansion_.footings[f];
          if (footing.shape.name != piece.part && group.of != piece.part) continue;
          elements.push_back(element_of(footing));
        }
      } else if (piece.kind == Kind::mortar_below || piece.kind == Kind::mortar_facing ||
                 piece.kind == Kind::pointing) {
        if (group.walls.empty() || expansion_.walls[group.walls.front()].of != piece.part) continue;
        for (const std::size_t w : group.walls) {
          const works::WallPart& wall = expansion_.walls[w];
          elements.push_back(
              {wall.shape.name, "the " + wall.title, wall.shape.length.value(), {wall.shape.name}});
        }
      }
    }
    return elements;
  }

  [[nodiscard]] Element element_of(const works::FootingPart& footing) const {
    Element element{
        footing.shape.name, "the " + footing.title, footing.shape.length.value(), {footing.shape.name}};
    // What hangs over a wall hangs down to its strip.
    for (const works::WallPart& wall : expansion_.walls) {
      if (wall.shape.footing == footing.shape.name) element.names.insert(wall.shape.name);
    }
    return element;
  }

  /// Nobody lays under a cover: work on the part took off what lay there before, whatever the book forgot.
  [[nodiscard]] Instant off_by(const FreshPiece& piece, Instant on, Instant off) const {
    for (const FreshPiece& other : pieces_) {
      const bool same =
          other.part == piece.part && (other.kind == Kind::concrete) == (piece.kind == Kind::concrete);
      if (same && other.laid.from > on) off = std::min(off, other.laid.from);
    }
    return off;
  }

  static void put_in_order(std::vector<OverIt>& over) {
    std::stable_sort(over.begin(), over.end(),
                     [](const OverIt& a, const OverIt& b) { return a.span.from < b.span.from; });
  }

  const works::TaskList& list_;
  const Plan& done_;
  Instant now_;
  works::Expansion expansion_;
  std::vector<FreshPiece> pieces_;
};

/// The runs of the book. What it does not name was perhaps done, but nobody knows when: it is left out.
Plan as_logged(const works::TaskList& list, const works::Progress& progress, Instant now) {
  Plan plan;
  for (const works::TaskProgress& state : progress.tasks) {
    const works::Task* task = list.find(state.task);
    if (task == nullptr || !state.begun) continue;
    PlannedTask done;
    done.task = state.task;
    double so_far = 0;
    const auto add = [&](Instant from, Instant to, double share) {
      so_far += share;
      PlannedRun run;
      run.span = {from, std::min(to, now)};
      run.share = share;
      double laid = 0;
      for (const double course : task->courses) {
        laid += course;
        if (laid <= so_far * task->amount + enough) ++run.courses_after;
      }
      done.runs.push_back(run);
    };
    for (const works::Run& run : state.runs) {
      const double part = state.worked.value() > 0 ? run.worked / state.worked : 0;
      if (part > 0) add(run.from, run.to, part * state.share());
    }
    // Logged as done without a begin: left at that moment.
    if (done.runs.empty() && state.share() > 0) {
      const Instant end = state.finished.value_or(*state.begun);
      add(end, end, state.share());
    }
    plan.tasks.push_back(std::move(done));
  }
  return plan;
}

}  // namespace

SiteState site_state(const works::Job& job, const works::TaskList& list, const works::Progress& progress,
                     Instant now) {
  const Plan done = as_logged(list, progress, now);
  SiteState state;
  Pieces pieces(job, list, done, now);
  pieces.cover_as_logged(progress.covers, progress.canopy);
  state.pieces = pieces.take();
  for (const works::Cover& canopy : progress.canopy)
    state.canopy.push_back({canopy.part, {canopy.from, canopy.to.value_or(Instant::max())}});
  return state;
}

SiteState site_state(const works::Job& job, const works::TaskList& list, const Plan& followed, Instant now) {
  SiteState state;
  Pieces pieces(job, list, followed, now);
  pieces.cover_as_planned(followed);
  state.pieces = pieces.take();
  for (const CanopySitting& sitting : followed.canopy)
    state.canopy.push_back({sitting.part, {sitting.pitch_from, sitting.struck_by}});
  return state;
}

}  // namespace weatherstruck::programme
