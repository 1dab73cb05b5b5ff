#include "weatherstruck/render/limits_sheet.h"

#include <fmt/format.h>
#include <array>

#include <algorithm>
#include <utility>

#include "limits_words.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"
#include "weatherstruck/trade/norms.h"
#include "weatherstruck/trade/own_figures.h"
#include "weatherstruck/works/expand.h"

namespace weatherstruck::render {
namespace {

using trade::ListedRow;

constexpr std::size_t under_title = 4;
constexpr std::size_t under_row = 8;

bool is_numeric_row(const ListedRow& row) {
  return row.figures.front().what.empty();
}

// Rows of one key that follow each other: a limit as each set and cold rule has it.
bool same_key(const ListedRow& a, const ListedRow& b) {
  return a.table == b.table && a.key == b.key;
}

void add_wrapped(Table& table, const std::string& words, std::size_t indent) {
  if (words.empty()) return;
  for (const std::string& line : base::wrap(words, page_width - indent - 2))
    table.section(std::string(indent, ' ') + line);
}

// Sources under a group, each once.
class Sources {
 public:
  std::string number_of(const trade::Source& source) {
    const std::string text = source_text(source);
    auto found = std::find(texts_.begin(), texts_.end(), text);
    if (found == texts_.end()) found = texts_.insert(texts_.end(), text);
    return std::to_string(found - texts_.begin() + 1);
  }
  void print(Page& page) const {
    page.gap();
    for (std::size_t i = 0; i < texts_.size(); ++i)
      page.item(base::align_right(std::to_string(i + 1), 4), texts_[i], 6);
  }

 private:
  std::vector<std::string> texts_;
};

std::string set_of(const LimitsFacts& facts) {
  if (!facts.set) return "sets uk and us, every cold rule";
  // The cold rule is of the UK.
  if (*facts.set == trade::LimitSet::us) return "set us";
  return facts.rule ? "set " + trade::set_words(facts.set, facts.rule) : "set uk, every cold rule";
}

bool in_fahrenheit(const LimitsFacts& facts, const ListedRow& row) {
  return row.set.value_or(facts.set.value_or(trade::LimitSet::uk)) == trade::LimitSet::us;
}

std::string own_text(const LimitsFacts& facts, const ListedRow& row, const OwnFigure& own) {
  return fmt::format("the job sets {}",
                     figure_text_twice(own.value, row.figures.front().unit, in_fahrenheit(facts, row)));
}

void head(Page& page, const LimitsFacts& facts) {
  page.title(facts.job ? "Limits of " + *facts.job : "Limits, rates and norms", set_of(facts));
  if (facts.job) {
    const auto limits = std::count_if(facts.rows.begin(), facts.rows.end(), [&](const ListedRow& row) {
      return own_figure(facts, row) != nullptr;
    });
    page.text(limits == 0 ? "The job sets none of these itself."
                          : fmt::format("The job sets {} of these itself, marked *.", limits));
    if (!facts.crew.empty()) page.text("Pace against the norm: " + facts.crew + ".");
  }
}

LimitsFacts narrowed(LimitsFacts facts) {
  facts.rows = trade::listed_rows();
  std::erase_if(facts.rows, [&](const ListedRow& row) {
    return (facts.set && !trade::in_force(row, *facts.set, facts.rule)) || !trade::matches(row, facts.words);
  });
  return facts;
}

}  // namespace

LimitsFacts limits_facts(std::optional<trade::LimitSet> set, std::vector<std::string> words) {
  LimitsFacts facts;
  facts.set = set;
  facts.words = std::move(words);
  return narrowed(std::move(facts));
}

LimitsFacts limits_facts(const works::Job& job, std::vector<std::string> words) {
  LimitsFacts facts;
  facts.set = job.limits.set;
  facts.rule = job.limits.cold_rule;
  facts.job = job.name;
  facts.words = std::move(words);
  const trade::ResolvedLimits resolved = works::limits_of(job);
  for (const trade::LimitValues::Entry& entry : resolved.values.all()) {
    if (entry.overridden) facts.own.push_back({std::string(entry.row->key), entry.value});
  }
  const std::array norms{std::pair{trade::norm_key::waste_bricks, job.practice.brick_waste},
                         std::pair{trade::norm_key::waste_mortar, job.practice.mortar_waste},
                         std::pair{trade::norm_key::waste_concrete, job.practice.concrete_waste},
                         std::pair{trade::norm_key::waste_flags, job.practice.flag_waste},
                         std::pair{trade::norm_key::barrow_load, job.kit.barrow.value()}};
  for (const works::LimitOverride& own : job.limits.overrides) {
    if (trade::find_settable(own.key) != nullptr) facts.own.push_back({own.key, own.value});
  }
  for (const auto& [key, value] : norms) {
    if (value != trade::norm(key)) facts.own.push_back({std::string(key), value});
  }
  for (const works::Person& person : job.crew) {
    if (person.pace == 1) continue;
    facts.crew += fmt::format("{}{} {}", facts.crew.empty() ? "" : ", ", person.name,
                              base::plain_number(person.pace, 2));
  }
  return narrowed(std::move(facts));
}

const OwnFigure* own_figure(const LimitsFacts& facts, const ListedRow& row) {
  if (row.limit == nullptr && row.set_in.empty()) return nullptr;
  const auto found = std::find_if(facts.own.begin(), facts.own.end(),
                                  [&](const OwnFigure& own) { return own.key == row.key; });
  return found == facts.own.end() ? nullptr : &*found;
}

std::string limits_list(const LimitsFacts& facts, Ink ink) {
  Page page(ink);
  head(page, facts);
  page.gap();
  page.text(
      "A limit guards against what stands beside it: danger (safety), damage, a poorer job (quality), or "
      "only "
      "discomfort. A job sets a limit by its key, under limits.overrides. \"weatherstruck limits WORD\" "
      "shows "
      "those with that word, with what they may be and where else a job sets a number. Set-up and factors of "
      "a "
      "pace are assumptions; the source beside it is that of its hours. Norms, paces and covers are set in "
      "the "
      "same way. Materials, mixes, curing times and what is called constant or heat are listed only: they "
      "are "
      "properties of matter, not of a job.");
  for (auto row = facts.rows.begin(); row != facts.rows.end();) {
    const trade::WorkGroup group = row->group;
    page.heading(trade::group_title(group));
    Table table({{""}, {""}, {""}, {""}, {"", Table::Kind::right}});
    Sources sources;
    const ListedRow* last = nullptr;
    for (; row != facts.rows.end() && row->group == group; ++row) {
      const bool again = last != nullptr && same_key(*last, *row);
      if (!again) add_wrapped(table, row->title, 0);
      const bool one = is_numeric_row(*row);
      const trade::ListedFigure& first = row->figures.front();
      const OwnFigure* own = own_figure(facts, *row);
      table.add({std::string(under_title - 2, ' ') + (again ? "" : row->key),
                 one ? figure_text_twice(first.value, first.unit, in_fahrenheit(facts, *row)) +
                           (own != nullptr ? " *" : "")
                     : "",
                 kind_text(*row), facts.set || !row->cls ? "" : trade::set_words(row->set, row->rule),
                 sources.number_of(row->source)});
      add_wrapped(table, figures_text(*row, one ? 1 : 0), under_row - 2);
      if (own != nullptr) add_wrapped(table, "* " + own_text(facts, *row, *own), under_row - 2);
      last = &*row;
    }
    page.table(table);
    sources.print(page);
  }
  return page.str();
}

std::string limits_details(const LimitsFacts& facts, Ink ink) {
  Page page(ink);
  head(page, facts);
  constexpr std::size_t beside = 12;
  for (auto row = facts.rows.begin(); row != facts.rows.end();) {
    const ListedRow& first = *row;
    page.heading(first.key);
    page.text(capital(first.title), 2);
    for (; row != facts.rows.end() && same_key(first, *row); ++row) {
      const trade::ListedFigure& figure = row->figures.front();
      std::string words = is_numeric_row(*row)
                              ? figure_text_twice(figure.value, figure.unit, in_fahrenheit(facts, *row))
                              : std::string();
      if (row->cls) words += "; " + kind_text(*row);
      const std::string range = range_text(figure);
      if (!range.empty()) words += (row->limit != nullptr ? "; may be " : "; seen ") + range;
      if (row->may_be)
        words += "; may be " + range_text({"", 0, figure.unit, row->may_be->first, row->may_be->second});
      const std::string more = figures_text(*row, is_numeric_row(*row) ? 1 : 0);
      if (!more.empty()) words += (words.empty() ? "" : "; ") + more;
      page.item("  " + (row->cls ? trade::set_words(row->set, row->rule) : kind_text(*row)), words, beside);
      page.item("", source_text(row->source), beside);
    }
    if (const OwnFigure* own = own_figure(facts, first)) {
      page.item("  job", fmt::format("{}, in {}", own_text(facts, first, *own), first.set_in), beside);
    } else if (!first.set_in.empty()) {
      page.item("  job",
                facts.job ? fmt::format("leaves it; to set it: {}", first.set_in)
                          : fmt::format("sets it in {}", first.set_in),
                beside);
    }
  }
  return page.str();
}

}  // namespace weatherstruck::render
