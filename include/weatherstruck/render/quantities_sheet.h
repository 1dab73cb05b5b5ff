#pragma once
// What the job takes: what to buy, what goes into the mixer, what comes out of the ground, and which part
// wants which of it.
#include <string>
#include <string_view>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/works/job.h"
#include "weatherstruck/works/quantities.h"
#include "weatherstruck/works/shortage.h"

namespace weatherstruck::render {

[[nodiscard]] std::string quantities_sheet(const works::Job& job, const works::Bill& bill, Ink ink);

/// What to build otherwise, a sentence each, and what is missing even then.
[[nodiscard]] std::vector<std::string> cure_lines(const works::CurePlan& plan);

/// An amount in a unit of the materials table, no finer than it is measured: "0.62 m3", "612", "4.5 m".
/// Counted things go without their unit.
[[nodiscard]] std::string amount(double value, std::string_view unit);
/// "3 bags of 25 kg", "2 packs"; "12" where the purchase unit is the thing itself.
[[nodiscard]] std::string purchase(double count, std::string_view pack);

}  // namespace weatherstruck::render
