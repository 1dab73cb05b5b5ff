#pragma once
// A plan as the record keeps it: bytes that give the same plan back.
#include <optional>
#include <string>
#include <string_view>

#include "weatherstruck/base/zone.h"
#include "weatherstruck/programme/outlook.h"
#include "weatherstruck/programme/plan.h"
#include "weatherstruck/trade/own_pace.h"

namespace weatherstruck::files {

/// A plan and the moment it was made for.
struct KeptPlan {
  base::Instant now;  ///< nothing planned starts before it
  programme::Plan plan;
  bool sound = true;  ///< no checker objected
  std::optional<programme::Outlook> outlook{};
  trade::OwnPaces own_pace{};  ///< that it stands on
};

/// Rises when the shape changes; a plan of another version is made anew.
inline constexpr int plan_version = 3;

[[nodiscard]] std::string write_plan(const KeptPlan& kept);
/// nullopt for anything that write_plan of this version did not write.
[[nodiscard]] std::optional<KeptPlan> read_plan(std::string_view text);

}  // namespace weatherstruck::files
