#include "weatherstruck/works/cover_book.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "weatherstruck/works/spoken.h"

namespace weatherstruck::works {
namespace {

using trade::CoverKind;

Cover* lying_on(const Name& part, Progress& progress) {
  const auto on = std::find_if(progress.covers.begin(), progress.covers.end(),
                               [&part](const Cover& cover) { return cover.part == part && !cover.to; });
  return on == progress.covers.end() ? nullptr : &*on;
}

void remark(Progress& progress, Remark::Kind kind, std::string code, const Entry& entry, std::string text) {
  progress.remarks.push_back({kind, std::move(code), entry.key, std::move(text)});
}

}  // namespace

void cover_on(const CoverOn& what, const Entry& entry, Progress& progress) {
  CoverKind kind = what.kind;
  if (Cover* on = lying_on(what.part, progress)) {
    const bool pair = (on->kind == CoverKind::hessian && kind == CoverKind::sheet) ||
                      (on->kind == CoverKind::sheet && kind == CoverKind::hessian);
    if (pair) kind = CoverKind::hessian_and_sheet;
    if (on->kind == kind) {
      remark(progress, Remark::Kind::advice, "covered-already", entry,
             "The " + spoken(what.part) + " was covered so already.");
      return;
    }
    on->to = entry.at;
  }
  progress.covers.push_back({what.part, kind, entry.at, std::nullopt});
}

void cover_off(const CoverOff& what, const Entry& entry, Progress& progress) {
  Cover* on = lying_on(what.part, progress);
  if (on == nullptr) {
    remark(progress, Remark::Kind::question, "not-covered", entry,
           "The " + spoken(what.part) +
               " was uncovered, but nothing was on it in the book. What was it, and since when?");
    return;
  }
  std::optional<CoverKind> stays;
  if (what.kind && *what.kind != on->kind) {
    if (on->kind == CoverKind::hessian_and_sheet && *what.kind == CoverKind::sheet) {
      stays = CoverKind::hessian;
    } else if (on->kind == CoverKind::hessian_and_sheet && *what.kind == CoverKind::hessian) {
      stays = CoverKind::sheet;
    } else {
      remark(progress, Remark::Kind::question, "other-cover", entry,
             "Another cover is on the " + spoken(what.part) +
                 " in the book; it is taken to be on still. Which one came off?");
      return;
    }
  }
  on->to = entry.at;
  if (stays) progress.covers.push_back({what.part, *stays, entry.at, std::nullopt});
}

void canopy_up(const CanopyUp& what, const Entry& entry, Progress& progress) {
  if (!progress.canopy.empty() && !progress.canopy.back().to) {
    Cover& up = progress.canopy.back();
    if (up.part == what.part) {
      remark(progress, Remark::Kind::advice, "canopy-up-already", entry,
             "The canopy stood over the " + spoken(what.part) + " already.");
      return;
    }
    up.to = entry.at;
  }
  progress.canopy.push_back({what.part, CoverKind::canopy, entry.at, std::nullopt});
}

void canopy_down(const Entry& entry, Progress& progress) {
  if (progress.canopy.empty() || progress.canopy.back().to) {
    remark(progress, Remark::Kind::question, "canopy-not-up", entry,
           "The canopy came down, but was not up in the book. Where had it stood, and since when?");
    return;
  }
  progress.canopy.back().to = entry.at;
}

}  // namespace weatherstruck::works
