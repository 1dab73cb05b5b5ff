#pragma once
// Levels read beside trenches, and the footings that follow from them. For this floor only.
#include <map>

#include "weatherstruck/base/quantity.h"
#include "weatherstruck/works/expand.h"
#include "weatherstruck/works/progress.h"

namespace weatherstruck::works {

class LevelBook {
 public:
  LevelBook(const Job& job, const Expansion& expansion) : job_(job), expansion_(expansion) {}
  /// A place read again (to a centimetre) takes the later reading. Faults go to the remarks.
  void read(const LevelRead& what, const Entry& entry, Progress& progress);
  /// Plans every footing with two readings or more.
  void finish(Progress& progress) const;

 private:
  struct Readings {
    std::map<long, LevelRead> by_centimetre;
    EntryKey last;
  };
  [[nodiscard]] const FootingPart* footing(const Name& name) const;

  const Job& job_;
  const Expansion& expansion_;
  std::map<Name, Readings> read_;
};

}  // namespace weatherstruck::works
