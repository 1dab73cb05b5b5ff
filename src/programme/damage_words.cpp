#include "damage_words.h"

#include <cmath>

#include "weatherstruck/base/text.h"

namespace weatherstruck::programme::damage {

using Kind = works::FreshWork::Kind;
using Cause = Harm::Cause;

namespace {

// What to look for is common practice, no source.
std::string look_after_rain(Kind kind) {
  switch (kind) {
    case Kind::concrete:
      return "Look for a top that is sandy, dished or shows bare stones. Draw a nail across it: it must "
             "scratch, not plough up sand.";
    case Kind::mortar_below:
      return "Look for beds washed thin and cement run down the face. Lift a brick of the top course: it "
             "must hold.";
    case Kind::mortar_facing:
      return "Look for washed joints and cement run down the face. Draw a key along a joint: it must not "
             "come away as sand. Try the top bricks by hand, and the line.";
    case Kind::pointing:
      return "Look for joints that ran or lost their face. Draw a key along one: it must not come away as "
             "sand.";
    case Kind::plate_bed:
      return "Look along the bed for washed edges. Press on the plate: it must not rock.";
    case Kind::flags:
      return "Look for bed washed out at the edges. Tread on each corner: a flag that rocks or sounds hollow "
             "has lost its bed.";
    case Kind::grout:
      return "Look for joints washed low and cement on the flags. Draw a key along one: it must not come "
             "away as sand.";
  }
  return {};
}

std::string look_after_frost(Kind kind) {
  if (kind == Kind::concrete) {
    return "Wait until it has thawed. Look for a pale or flaking top. Tap it: sound concrete rings, frozen "
           "concrete is dull; a nail must scratch, not dig in.";
  }
  if (kind == Kind::flags || kind == Kind::plate_bed) {
    return "Wait until it has thawed. Press and tread on it: what rocks or sounds hollow has lost its bed. "
           "Scrape the edge of the bed with a key: it must not crumble.";
  }
  return "Wait until it has thawed. Look for pale, flaking joints. Scrape one with a key: it must not "
         "crumble. Try the top bricks by hand.";
}

}  // namespace

std::string amount_words(double amount, const std::string& unit) {
  if (amount <= 0) return "what was laid last";
  if (unit == "strip" || unit == "base") return "the " + unit;
  if (unit == "courses") {
    const long courses = std::lround(std::ceil(amount - 1e-9));
    return courses <= 1 ? "the last course" : "the last " + std::to_string(courses) + " courses";
  }
  return base::plain_number(amount, 1) + " " + unit;
}

std::string what_to_look_for(Kind kind, Cause cause) {
  switch (cause) {
    case Cause::rain:
      return look_after_rain(kind);
    case Cause::frost:
      return look_after_frost(kind);
    case Cause::cold_bed:
      return "It lay bare in the cold. Tread on each corner, and scrape the edge of the bed with a key: it "
             "must not crumble.";
    case Cause::canopy:
      return "Look where the canopy stood: bricks knocked, the line, the level, joints the rain got at.";
    case Cause::cover:
      return "See whether the cover still lies and the work beneath is dry; put it back and weigh it down.";
  }
  return {};
}

std::string what_to_do(Kind kind, Cause cause, const std::string& amount) {
  const bool frost = cause == Cause::frost;
  switch (kind) {
    case Kind::concrete:
      return frost ? "Build nothing on " + amount +
                         " until it has thawed. Break off what is soft down to sound concrete; where more "
                         "than the skin is soft, take it out and pour again."
                   : "Brush the weak top off " + amount +
                         " down to sound concrete, wash it, read the levels again and make them up in the "
                         "bed of the first course.";
    case Kind::mortar_below:
    case Kind::mortar_facing:
      // NHBC 6.1.20: frost-damaged work is taken down (sourced).
      return frost ? "Take down " + amount + ", clean the bricks and lay them again."
                   : "Rake the washed joints out of " + amount +
                         " and fill them with fresh mortar; take up and relay every brick that moves. Sponge "
                         "the face with clean water before it dries.";
    case Kind::pointing:
      return "Rake out " + amount + " again and point it afresh.";
    case Kind::plate_bed:
      return "Take up " + amount + ", clean off the bed and bed it again.";
    case Kind::flags:
      return "Take up what rocks of " + amount + ", clean off the bed and lay it again.";
    case Kind::grout:
      return "Rake the joints of " + amount + " out and fill them again.";
  }
  return {};
}

std::string look_at_canopy() {
  return "Look over frame, cloth, pegs and ballast before it goes up again; a bent leg or a torn seam stays "
         "down.";
}

}  // namespace weatherstruck::programme::damage
