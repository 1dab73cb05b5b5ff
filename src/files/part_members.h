#pragma once
// The members of each kind of part, told once for reading and for writing: their keys, in the order in which
// a document has them, and what each may be. A form has
//   needed(key, member, low, high)   a length or a count that has no usual value
//   usual(key, member, low, high)    one that has
//   maybe(key, member, low, high)    a length that may be left out and then is none
//   word(key, member)                a word of a closed list
//   truth(key, member), name(key, member)
//   side(key, member)                a side, or none
//   list(key, member, most, shape)   each item by its own members_of
#include "weatherstruck/works/job.h"

namespace weatherstruck::files {

template <class Form>
void members_of(Form& form, works::Footing& part) {
  form.needed("length", part.length, 0.3, 60);
  form.needed("width", part.width, 0.2, 1.5);
  form.needed("thickness", part.thickness, 0.1, 1);
  form.needed("depth", part.depth, 0.1, 2);
  form.usual("drop", part.drop, 0, 5);
}

template <class Form>
void members_of(Form& form, works::Pier& pier) {
  form.usual("width", pier.width, 0.1, 1);
  form.usual("projection", pier.projection, 0.05, 1);
  form.maybe("at", pier.at, 0, 60);
}

template <class Form>
void members_of(Form& form, works::Opening& opening) {
  form.needed("width", opening.width, 0.1, 10);
  form.usual("from_course", opening.from_course, 0, 40);
  form.maybe("at", opening.at, 0, 60);
}

template <class Form>
void members_of(Form& form, works::Meeting& meeting) {
  form.word("end", meeting.end);
  form.name("wall", meeting.wall);
}

template <class Form>
void members_of(Form& form, works::Wall& part) {
  form.name("footing", part.footing);
  form.needed("length", part.length, 0.2, 60);
  form.needed("courses", part.courses, 1, 40);
  form.usual("courses_below", part.courses_below, 0, 40);
  form.word("bond", part.bond);
  form.word("brick", part.brick);
  form.word("brick_below", part.brick_below);
  form.word("joints", part.joints);
  form.usual("shared_corners", part.shared_corners, 0, 2);
  form.list("piers", part.piers, 40, "pier");
  form.list("openings", part.openings, 20, "opening");
  form.truth("plate", part.plate);
  form.truth("coping", part.coping);
  form.list("meets", part.meets, 2, "meeting");
  form.truth("dpc", part.dpc);
  form.usual("weep_spacing", part.weep_spacing, 0, 3);
}

template <class Form>
void members_of(Form& form, works::Base& part) {
  form.needed("length", part.length, 0.8, 60);
  form.needed("width", part.width, 0.8, 60);
  form.usual("drop_along_length", part.drop_along_length, -5, 5);
  form.usual("drop_along_width", part.drop_along_width, -5, 5);
  form.needed("courses", part.courses, 1, 40);
  form.usual("courses_below", part.courses_below, 0, 40);
  form.side("door_side", part.door_side);
  form.usual("door_width", part.door_width, 0.4, 60);
  form.maybe("door_at", part.door_at, 0, 60);
  form.usual("footing_width", part.footing_width, 0.2, 1.5);
  form.usual("footing_thickness", part.footing_thickness, 0.1, 1);
  form.usual("footing_depth", part.footing_depth, 0.1, 2);
  form.word("bond", part.bond);
  form.word("brick", part.brick);
  form.word("brick_below", part.brick_below);
  form.word("joints", part.joints);
  form.truth("plates", part.plates);
}

template <class Form>
void members_of(Form& form, works::Bed& part) {
  form.needed("length", part.length, 0.5, 60);
  form.needed("width", part.width, 0.4, 20);
  form.needed("courses", part.courses, 1, 20);
  form.usual("sides", part.sides, 1, 4);
  form.usual("footing_width", part.footing_width, 0.2, 1.5);
  form.usual("footing_thickness", part.footing_thickness, 0.1, 1);
  form.usual("footing_depth", part.footing_depth, 0.1, 2);
  form.usual("drop", part.drop, 0, 5);
  form.word("bond", part.bond);
  form.word("brick", part.brick);
  form.word("joints", part.joints);
  form.truth("filled", part.filled);
  form.usual("courses_below", part.courses_below, 0, 20);
  form.word("brick_below", part.brick_below);
  form.usual("weep_spacing", part.weep_spacing, 0, 3);
}

template <class Form>
void members_of(Form& form, works::Path& part) {
  form.needed("length", part.length, 0.3, 200);
  form.needed("width", part.width, 0.3, 10);
  form.word("surface", part.surface);
  form.usual("flag_length", part.flag_length, 0.1, 1.5);
  form.usual("flag_width", part.flag_width, 0.1, 1.5);
  form.usual("subbase", part.subbase, 0.03, 0.5);
}

template <class Form>
void members_of(Form& form, works::Steps& part) {
  form.needed("count", part.count, 1, 20);
  form.needed("width", part.width, 0.3, 10);
  form.usual("going", part.going, 0.2, 2);
  form.usual("riser", part.riser, 0.075, 0.22);
}

template <class Form>
void members_of(Form& form, works::Box& part) {
  form.needed("length", part.length, 0.5, 10);
  form.needed("width", part.width, 0.5, 10);
  form.needed("courses", part.courses, 1, 4);
  form.word("brick", part.brick);
  form.word("joints", part.joints);
}

}  // namespace weatherstruck::files
