#include "log_talk.h"

#include <fmt/format.h>

#include <istream>
#include <optional>
#include <ostream>
#include <utility>

#include "weatherstruck/works/said.h"

namespace weatherstruck::app {
namespace {

constexpr std::size_t most_shown = 9;
constexpr std::size_t most_answers = 200;  ///< a file without end is not read for ever

struct Doubt {
  std::string text;
  std::vector<std::string> choices;
  std::vector<std::string> near;  ///< to what was not understood
};

Doubt doubt_of(const works::Reading& reading) {
  if (const auto* question = std::get_if<works::Question>(&reading))
    return {question->text, question->candidates, {}};
  const auto* none = std::get_if<works::NotUnderstood>(&reading);
  return none != nullptr ? Doubt{none->text, {}, none->nearest} : Doubt{};
}

void show_doubt(render::Page& page, const works::Heard& heard, const works::TaskList* tasks) {
  const Doubt doubt = doubt_of(heard.reading);
  page.text(heard.words.empty() ? doubt.text : fmt::format("\"{}\": {}", heard.words, doubt.text));
  for (std::size_t i = 0; i < doubt.choices.size() && i < most_shown; ++i) {
    const works::Task* task = tasks != nullptr ? tasks->find(doubt.choices[i]) : nullptr;
    page.item(fmt::format("  {:>3}  ", i + 1),
              doubt.choices[i] + (task != nullptr ? ": " + works::short_title(*task) : ""), 7);
  }
  if (doubt.choices.size() > most_shown)
    page.text(fmt::format("{} more fit; say more of the name.", doubt.choices.size() - most_shown), 4);
  if (doubt.near.empty()) return;
  std::string near;
  for (const std::string& name : doubt.near)
    near += (near.empty() ? "" : ", ") + name;
  page.text("Near to it: " + near, 4);
}

std::string text_of_pieces(const std::vector<std::string>& pieces) {
  std::string text;
  for (const std::string& piece : pieces)
    text += (text.empty() ? "" : "\n") + piece;
  return text;
}

std::optional<std::string> line_from(const Setting& setting) {
  std::string line;
  if (!std::getline(setting.in, line)) return std::nullopt;
  while (!line.empty() && (line.back() == '\r' || line.back() == ' '))
    line.pop_back();
  return line;
}

/// The place that a number means among the choices shown.
std::optional<std::size_t> chosen(const std::string& line, const std::vector<std::string>& choices) {
  if (line.size() != 1 || line[0] < '1' || line[0] > '9') return std::nullopt;
  const auto place = static_cast<std::size_t>(line[0] - '1');
  return place < choices.size() ? std::optional(place) : std::nullopt;
}

}  // namespace

void show_understood(render::Page& page, const desk::HeardText& heard) {
  if (heard.ready.empty()) return;
  page.heading("Understood");
  for (const desk::Ready& ready : heard.ready)
    page.text(ready.sentence, 2);
  if (!heard.taken.empty()) page.text(heard.taken, 4);
}

void show_heard(render::Page& page, const desk::HeardText& heard) {
  if (heard.doubts.empty()) {
    for (const desk::Ready& ready : heard.ready)
      page.text(ready.sentence);
    if (!heard.taken.empty()) page.text(heard.taken, 2);
    return;
  }
  show_understood(page, heard);
  page.heading("To be asked");
  for (const works::Heard& doubt : heard.doubts)
    show_doubt(page, doubt, nullptr);
}

Settled settle_doubts(const Setting& setting, const desk::OpenJob& open, const works::Standing& standing,
                      desk::HearRequest request, desk::HeardText heard) {
  Settled out;
  for (std::size_t asked = 0; !heard.doubts.empty(); ++asked) {
    const works::Heard& doubt = heard.doubts.front();
    render::Page page(setting.ink);
    show_doubt(page, doubt, &standing.list);
    setting.out << page.str();
    const std::vector<std::string> choices = doubt_of(doubt.reading).choices;
    setting.out << (choices.empty() ? "Other words, or Enter to leave it out: "
                                    : "A number, other words, or Enter to leave it out: ")
                << std::flush;
    const std::optional<std::string> line = line_from(setting);
    if (!line || asked > most_answers) {
      out.cut_off = true;
      return out;
    }
    std::vector<std::string> pieces = heard.pieces;
    if (const auto place = chosen(*line, choices)) {
      request.answers.push_back({doubt.words, choices[*place]});
    } else if (line->empty()) {
      out.left_out.push_back(doubt.words);
      pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(doubt.piece));
    } else {
      pieces[doubt.piece] = *line;
    }
    request.text = text_of_pieces(pieces);
    heard = desk::hear(open, standing, request);
  }
  out.heard = std::move(heard);
  return out;
}

}  // namespace weatherstruck::app
