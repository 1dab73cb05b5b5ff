#pragma once
// The tables to be read: every limit, rate and norm with value, unit, source and class, and what a job sets
// itself; as a list for the terminal, one by one with everything, and as a page for docs.
#include <optional>
#include <string>
#include <vector>

#include "weatherstruck/render/page.h"
#include "weatherstruck/trade/limits_list.h"
#include "weatherstruck/works/job.h"

namespace weatherstruck::render {

/// A number that a job sets itself.
struct OwnFigure {
  std::string key;   ///< of a limit or a norm
  double value = 0;  ///< in the row's unit
};

struct LimitsFacts {
  std::vector<trade::ListedRow> rows;
  std::optional<trade::LimitSet> set;   ///< none: the rows of both
  std::optional<trade::ColdRule> rule;  ///< none: of every cold rule
  std::optional<std::string> job;       ///< its name
  std::vector<OwnFigure> own;           ///< of the job; a norm's only where it differs from the norm
  std::string crew;                     ///< of the job, where a pace is not the norm: "Dai 1.2"
  std::vector<std::string> words;       ///< that the rows were narrowed by
};

/// The rows that hold under a set (both: none) and have all the words.
[[nodiscard]] LimitsFacts limits_facts(std::optional<trade::LimitSet> set, std::vector<std::string> words);
/// The rows that hold for a job, its own numbers beside them.
[[nodiscard]] LimitsFacts limits_facts(const works::Job& job, std::vector<std::string> words);
/// The job's own number for a row, if it has one.
[[nodiscard]] const OwnFigure* own_figure(const LimitsFacts& facts, const trade::ListedRow& row);

/// Two lines a row, by kind of work; sources numbered under each.
[[nodiscard]] std::string limits_list(const LimitsFacts& facts, Ink ink);
/// Each row with all there is to it.
[[nodiscard]] std::string limits_details(const LimitsFacts& facts, Ink ink);
/// A page in Markdown, from the same rows.
[[nodiscard]] std::string limits_page(const LimitsFacts& facts);

}  // namespace weatherstruck::render
