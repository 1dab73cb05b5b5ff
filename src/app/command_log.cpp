#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <iterator>
#include <ostream>
#include <string>

#include "commands.h"
#include "log_photographs.h"
#include "log_talk.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/desk/file_text.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/files/me_json.h"

namespace weatherstruck::app {
namespace {

base::Currency currency_of(const Setting& setting, const works::Job& job) {
  if (const auto person = setting.shelf.store().person()) {
    const files::MeRead read = files::read_me(person->text, setting.zones);
    if (read.document && read.document->rates) return read.document->rates->currency;
  }
  if (job.price && job.price->fixed) return job.price->fixed->currency();
  return *base::Currency::from_code(job.limits.set == trade::LimitSet::us ? "USD" : "GBP");
}

void list_book(const Setting& setting, const Arguments& arguments, const desk::OpenJob& open,
               const works::Standing& standing, base::Instant now) {
  const desk::PhotographsOf photographs = desk::photographs_of(setting.shelf, open);
  if (arguments.json) {
    const std::vector<desk::BookLine> lines = desk::book_lines(open, standing, now);
    files::Json document = files::export_document("site-book");
    document["job"] = open.job.name;
    document["entries"] = files::Json::array();
    for (const desk::BookLine& line : lines) {
      files::Json one = {{"number", line.number},
                         {"key", line.entry.key},
                         {"kind", files::kind_of(line.entry.what)},
                         {"at", base::iso_utc(line.entry.at)},
                         {"noted_at", base::iso_utc(line.entry.noted_at)},
                         {"counts", line.counts},
                         {"what", files::body_of(line.entry.what)}};
      if (line.entry.corrects) one["corrects"] = *line.entry.corrects;
      if (const auto its = photographs.find(line.entry.key); its != photographs.end()) {
        one["photographs"] = files::Json::array();
        for (const record::Photograph& photograph : its->second)
          one["photographs"].push_back(photograph.content);
      }
      document["entries"].push_back(std::move(one));
    }
    setting.out << files::export_text(document);
    return;
  }
  desk::OpenJob shown = open;
  shown.book = desk::with_receipts(open.book, photographs);
  const std::vector<desk::BookLine> lines = desk::book_lines(shown, standing, now);
  render::Page page(setting.ink);
  page.title("Site book", open.job.title);
  if (lines.empty()) {
    page.gap();
    page.text(fmt::format("Nothing is in it yet. For example: weatherstruck log {} \"began digging at 7:40\"",
                          open.job.name));
  }
  std::string day;
  for (const desk::BookLine& line : lines) {
    const base::LocalTime local = open.job.site.zone.to_local(line.entry.at);
    const std::string its_day = base::day_name(std::chrono::floor<std::chrono::days>(local));
    if (its_day != day) page.heading(day = its_day);
    page.item(
        fmt::format("  {:>3}  {}", line.number, base::clock_time(local)),
        line.words + photographs_of_line(photographs, line.entry) + (line.counts ? "" : " (corrected since)"),
        14);
  }
  setting.out << page.str();
}

// Asks until the answer is yes or no; end of input is no.
bool agreed(const Setting& setting) {
  std::string line;
  while (true) {
    setting.out << "Keep that? [yes] " << std::flush;
    if (!std::getline(setting.in, line)) return false;
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.empty() || line == "y" || line == "yes") return true;
    if (line == "n" || line == "no") return false;
    setting.out << "yes or no.\n";
  }
}

std::optional<works::EntryKey> key_of(const desk::OpenJob& open, const std::string& number,
                                      const std::string& option) {
  const bool digits =
      !number.empty() && number.size() < 10 && number.find_first_not_of("0123456789") == std::string::npos;
  const std::size_t place = digits ? std::stoul(number) : 0;
  if (place < 1 || place > open.book.size()) {
    throw UsageError(fmt::format(
        "{}: found \"{}\"; allowed: the number of a line of the site book, {}.", option, number,
        open.book.size() == 0 ? std::string("which is empty") : fmt::format("1 to {}", open.book.size())));
  }
  return open.book.entries()[place - 1].key;
}

// The words of the command line, or those of --text.
std::string words_of(const Arguments& arguments, const Setting& setting) {
  if (const auto file = arguments.value("--text")) {
    return *file == "-" ? std::string(std::istreambuf_iterator<char>(setting.in), {})
                        : desk::text_of_file(*file, "a text");
  }
  std::string text;
  for (std::size_t i = 1; i < arguments.positionals.size(); ++i)
    text += (i > 1 ? " " : "") + arguments.positionals[i];
  return text;
}

// Pictures for a line that is in the book already.
ExitCode put_with_line(const Arguments& arguments, const Setting& setting, const desk::OpenJob& open,
                       const works::EntryKey& key, const std::vector<desk::GivenPhotograph>& given,
                       base::Instant now) {
  const desk::KeptPhotographs kept = desk::keep_photographs(setting.shelf, open, key, given, now);
  return answer(
      arguments, setting,
      [&] {
        files::Json document = files::export_document("logged");
        document["added"] = 0;
        document["there_already"] = 0;
        document["photographs_added"] = kept.added;
        document["photographs_there_already"] = kept.there_already;
        document["remarks"] = files::Json::array();
        return document;
      },
      [&] {
        render::Page page(setting.ink);
        page.text(fmt::format("With line {}: {}.", *arguments.value("--line"), given_words(given)));
        page.text(fmt::format("Kept: {}.", kept_words(kept)));
        return page.str();
      });
}

ExitCode log(const Arguments& arguments, const Setting& setting) {
  desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) {
    throw UsageError(fmt::format("A file has no site book. Keep the job first: weatherstruck job add {}",
                                 arguments.positionals.front()));
  }
  const base::Instant now = moment_of(arguments, setting, open.job);
  const works::Standing standing = works::standing_of(open.job, open.book, now);
  if (arguments.positionals.size() == 1 && !arguments.has("--text") && !arguments.has("--strike") &&
      !arguments.has("--line")) {
    if (arguments.has("--correct")) throw UsageError("--correct wants the words that are right.");
    if (arguments.has("--photo"))
      throw UsageError("--photo wants words that it goes with, or --line N, a line of the book.");
    list_book(setting, arguments, open, standing, now);
    return ExitCode::ok;
  }
  const std::vector<desk::GivenPhotograph> given = given_photographs(arguments);
  if (const auto number = arguments.value("--line"))
    return put_with_line(arguments, setting, open, *key_of(open, *number, "--line"), given, now);
  const bool sure = arguments.has("--yes") || arguments.has("--strike");
  const bool can_ask = !sure && setting.in_is_terminal && arguments.value("--text") != "-";
  Settled said;
  if (const auto number = arguments.value("--strike")) {
    const auto key = key_of(open, *number, "--strike");
    said.heard.ready.push_back({desk::strike(*key, now), fmt::format("Line {} is struck out.", *number)});
  } else {
    const auto plan = desk::plan_in_force(setting.shelf, open);
    desk::HearRequest request{words_of(arguments, setting), now, currency_of(setting, open.job)};
    if (const auto corrected = arguments.value("--correct"))
      request.corrects = key_of(open, *corrected, "--correct");
    request.plan = plan ? &*plan : nullptr;
    said.heard = desk::hear(open, standing, request);
    if (can_ask && !said.heard.doubts.empty()) {
      render::Page page(setting.ink);
      show_understood(page, said.heard);
      setting.out << page.str();
      said = settle_doubts(setting, open, standing, request, std::move(said.heard));
    }
    if (request.corrects && said.heard.ready.size() + said.heard.doubts.size() != 1 && !said.cut_off)
      throw UsageError("--correct wants words that come to one entry.");
  }
  render::Page page(setting.ink);
  if (said.cut_off || said.heard.ready.empty() || !said.heard.doubts.empty()) {
    if (!said.cut_off) show_heard(page, said.heard);
    if (said.heard.doubts.empty()) {
      page.text(said.cut_off || !said.left_out.empty() ? "Nothing is kept." : "Nothing was said.");
    } else {
      page.gap();
      page.text(
          "Nothing is kept, so that nothing comes to be kept twice: put right what is asked, and send all of "
          "it "
          "again.");
    }
    setting.err << page.str();
    return ExitCode::invalid;
  }
  show_heard(page, said.heard);
  for (const std::string& words : said.left_out)
    page.text("Left out: \"" + words + "\".");
  works::EntryKey pictured;
  if (!given.empty()) {
    const desk::Ready& with = goes_with(said.heard.ready);
    pictured = with.entry.key;
    page.text(fmt::format("With {}: {}.", said.heard.ready.size() == 1 ? "it" : "\"" + with.sentence + "\"",
                          given_words(given)));
  }
  if (!arguments.json) setting.out << page.str();
  if (!sure && !setting.in_is_terminal) {
    setting.err << "Nothing is kept: nobody is there to ask whether that is right. Add --yes if it is.\n";
    return ExitCode::failed;
  }
  if (!sure && !agreed(setting)) {
    setting.out << "Nothing is kept.\n";
    return ExitCode::failed;
  }
  std::vector<works::Entry> entries;
  for (const desk::Ready& ready : said.heard.ready)
    entries.push_back(ready.entry);
  desk::KeptEntries kept;
  desk::KeptPhotographs pictures;
  setting.shelf.store().in_one([&] {
    kept = desk::keep_entries(setting.shelf, open, entries, setting.zones, now);
    if (!given.empty()) pictures = desk::keep_photographs(setting.shelf, open, pictured, given, now);
  });
  const ExitCode told = answer(
      arguments, setting,
      [&] {
        files::Json document = files::export_document("logged");
        document["added"] = kept.added;
        document["there_already"] = kept.there_already;
        document["photographs_added"] = pictures.added;
        document["photographs_there_already"] = pictures.there_already;
        document["remarks"] = files::Json::array();
        for (const works::Remark& remark : kept.remarks)
          document["remarks"].push_back(
              {{"code", remark.code}, {"entry", remark.entry}, {"text", remark.text}});
        return document;
      },
      [&] {
        render::Page after(setting.ink);
        const std::string already =
            kept.there_already == 0 ? "" : fmt::format(", {} there already", kept.there_already);
        after.text(fmt::format("Kept: {} {}{}{}.", kept.added, kept.added == 1 ? "entry" : "entries", already,
                               given.empty() ? "" : "; " + kept_words(pictures)));
        for (const works::Remark& remark : kept.remarks) {
          // Said before he agreed.
          if (remark.code != "taken-as-done") after.text(remark.text, 2);
        }
        return after.str();
      });
  // Something that he said is not in the book.
  return said.left_out.empty() ? told : ExitCode::invalid;
}

}  // namespace

Command log_command() {
  return {
      {"log",
       "the site book: what was done, or what happened",
       "Plain words, one thing after another: \"began the north trench at 7:40, dug it by 9, 3 courses of "
       "the bed at 16:10, stood down 2 to 3:30 rain, gauge 4 mm since 6, 200 facing bricks left\". They are "
       "shown back, and kept once you say yes. What could mean two things is asked; with --yes or without a "
       "terminal nothing is kept while anything is left to ask, so that all of it can be sent again. The "
       "same words sent twice are one entry, "
       "also hours later where they hold no clock time; another one of the same day is said with \"again\", "
       "\"another\" or its time. A photograph of the receipt, or of anything else, goes with the entry by "
       "--photo: a copy is kept beside the record, of at most 20 MB and as JPEG, PNG, WebP, HEIC or PDF; an "
       "expense has it for its receipt. Without words it lists the book with a number before each line.",
       {{"JOB", "its name"}, {"WORDS", "what happened", Positional::Kind::many}},
       false,
       {{"log shed \"3 courses of the bed at 16:10\"", "at dusk"},
        {"log shed --text from-phone.txt --yes", "the text that the phone sheet made"},
        {"log shed --correct 12 \"2 courses of the bed at 16:10\"", "line 12 was wrong"},
        {"log shed \"37.95 for cement\" --photo receipt.jpg", "the receipt with it"},
        {"log shed --photo back.jpg --line 12", "one more with line 12"},
        {"log shed", "what is in the book"}},
       {{"--text", "FILE", "take the words from a file, or from - the input", false, ""},
        {"--yes", "", "keep them without asking", false, ""},
        {"--correct", "N", "the words stand in for line N", false, ""},
        {"--strike", "N", "line N never happened", false, ""},
        {"--photo", "FILE", "a photograph or scan that goes with it", true, ""},
        {"--line", "N", "the photograph goes with line N; without words", false, ""}}},
      [](const Arguments& arguments) -> Run {
        const int ways =
            static_cast<int>(arguments.has("--text")) + static_cast<int>(arguments.has("--strike")) +
            static_cast<int>(arguments.has("--line")) + static_cast<int>(arguments.positionals.size() > 1);
        if (ways > 1) throw UsageError("Give words, or --text, or --strike, or --line: one of them.");
        if (arguments.has("--line") && !arguments.has("--photo"))
          throw UsageError("--line: found without --photo, whose line it is.");
        if (arguments.has("--photo") && arguments.has("--strike"))
          throw UsageError("--photo: found with --strike; what never happened has no photograph.");
        return [arguments](const Setting& setting) { return log(arguments, setting); };
      }};
}

}  // namespace weatherstruck::app
