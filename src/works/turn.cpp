#include "weatherstruck/works/turn.h"

#include <algorithm>
#include <cmath>

#include "weatherstruck/base/text.h"
#include "weatherstruck/works/expand.h"

namespace weatherstruck::works {
namespace {

using base::Metres;

// To a micrometre, so that a turn there and back leaves no dust in the figures.
Metres fall_over(Metres fall, Metres before, Metres now) {
  return Metres(std::round(fall / before * now.value() * 1e6) / 1e6);
}

void turn_part(Base& base, Quarter quarter) {
  const Metres length = base.length;
  const Metres width = base.width;
  base.length = width;
  base.width = length;
  base.drop_along_length = fall_over(base.drop_along_length, length, base.length);
  base.drop_along_width = fall_over(base.drop_along_width, width, base.width);
  if (!base.door_side) return;
  const bool lengthwise = *base.door_side == Side::north || *base.door_side == Side::south;
  // A turn to the right carries west to north but north to east: then the other end is measured from.
  if (base.door_at && lengthwise == (quarter == Quarter::left))
    base.door_at = (lengthwise ? length : width) - *base.door_at - base.door_width;
  base.door_side = turned(*base.door_side, quarter);
}

void turn_part(Bed& bed) {
  const Metres length = bed.length;
  std::swap(bed.length, bed.width);
  bed.drop = fall_over(bed.drop, length, bed.length);
}

base::Fault cannot(const Name& part, std::string found, std::string remedy) {
  return {"cannot-turn", part, std::move(found), "a base, or a bed built on all four sides",
          std::move(remedy)};
}

}  // namespace

int PartTake::steps() const {
  int sum = 0;
  for (const RunTake& run : runs)
    sum += run.steps;
  return sum;
}

int PartTake::most_courses() const {
  int most = 0;
  for (const RunTake& run : runs)
    most = std::max(most, run.courses);
  return most;
}

Side turned(Side side, Quarter quarter) {
  // north, east, south, west: clockwise.
  const unsigned by = quarter == Quarter::right ? 1 : 3;
  return static_cast<Side>((static_cast<unsigned>(side) + by) % 4);
}

PartTake take_of(const Job& job, const Name& part) {
  const Expansion expansion = expand(job);
  PartTake out;
  for (const FootingPart& footing : expansion.footings) {
    if (footing.of != part) continue;
    out.concrete += footing.plan.concrete;
    out.trench += footing.plan.trench;
  }
  for (const WallPart& wall : expansion.walls) {
    if (wall.of != part) continue;
    RunTake run{wall.shape.name, static_cast<int>(wall.count.courses.size()), 0};
    for (const FootingPart& footing : expansion.footings) {
      if (footing.shape.name == wall.shape.footing) run.steps = static_cast<int>(footing.plan.steps.size());
    }
    out.runs.push_back(std::move(run));
    out.bricks += wall.count.bricks();
  }
  return out;
}

std::variant<Turned, base::Fault> turn(const Job& job, const Name& part, Quarter quarter) {
  std::vector<std::string> known;
  for (const Part& one : job.parts)
    known.push_back(name_of(one));
  const auto found = std::find(known.begin(), known.end(), part);
  if (found == known.end()) {
    const auto nearest = base::nearest_name(part, known);
    return base::Fault{"no-such-part", part, "no part \"" + part + "\"",
                       known.empty() ? "a part of the job; it has none" : "one of " + base::join_and(known),
                       nearest ? "Perhaps \"" + *nearest + "\" is meant." : "Name one of them."};
  }
  Job after = job;
  Part& one = after.parts[static_cast<std::size_t>(found - known.begin())];
  if (auto* base = std::get_if<Base>(&one)) {
    turn_part(*base, quarter);
  } else if (auto* bed = std::get_if<Bed>(&one)) {
    if (bed->sides != 4)
      return cannot(part, "a bed with a side left out, against a wall",
                    "Turn the wall it leans on, or write the bed anew.");
    turn_part(*bed);
  } else {
    return cannot(part, "the " + part + ", which is neither", "Change its sizes in the job document.");
  }
  PartTake was = take_of(job, part);
  PartTake is = take_of(after, part);
  return Turned{std::move(after), std::move(was), std::move(is)};
}

}  // namespace weatherstruck::works
