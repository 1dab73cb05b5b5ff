#pragma once
// What rides in the van: the bill without deliveries and what lies at the work, and the kit of the job.
#include <span>
#include <string_view>
#include <vector>

#include "weatherstruck/measure/van.h"
#include "weatherstruck/trade/source.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::works {

/// A thing of the kit with its mass and room.
struct KitRow {
  std::string_view key;
  std::string_view title;
  double kg;
  double m3;
  trade::Source source;
};
[[nodiscard]] std::span<const KitRow> kit_table();

/// Kit first, then bags and small things, then bricks and bulk.
[[nodiscard]] std::vector<measure::VanItem> van_items(const Job& job, const Bill& bill);

/// Mass of tools, mixer, covers, canopy and lights: what goes home again.
[[nodiscard]] base::Kilograms kit_mass(const Job& job);

/// The same held against the van of the kit.
[[nodiscard]] measure::VanPlan van_plan(const Job& job, const Bill& bill);

}  // namespace weatherstruck::works
