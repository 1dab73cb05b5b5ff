#pragma once
// What a FilterRun met on its way, so that runs of filters a little different can be reckoned without asking
// the weather, the cement and the wet face again.
#include <vector>

#include "weatherstruck/matter/heat_surface.h"

namespace weatherstruck::matter {

struct FilterTrace {
  /// One part of a step, in order.
  struct Part {
    double towards = 0;     ///< degrees C that draws the face
    double resistance = 0;  ///< of cover and air, a wet face counted in
    double beside = 0;      ///< degrees C that draws the ground beside
    double rise_top = 0;    ///< K that the cement adds to the top node before the part
    double rise_below = 0;  ///< K to the rest of the strip
  };
  std::vector<Part> parts;
  Part next;  ///< its rises, until the part begins

  void add(const Exchange& face, base::Celsius open) {
    next.towards = face.towards.value();
    next.resistance = face.resistance;
    next.beside = open.value();
    parts.push_back(next);
    next = {};
  }
};

}  // namespace weatherstruck::matter
