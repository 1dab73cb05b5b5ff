// pack and unpack: one job in one file.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <ostream>
#include <string>
#include <vector>

#include "commands.h"
#include "trip_command.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/pack_desk.h"
#include "weatherstruck/files/export.h"
#include "weatherstruck/record/folder.h"

namespace weatherstruck::app {
namespace {

// "1 document, 12 lines of the book": what there is of each.
std::string rows_in_words(const record::PackedRows& rows) {
  struct Count {
    std::int64_t number;
    const char* one;
    const char* many;
  };
  std::string out;
  for (const Count& count : {Count{rows.documents, "document", "documents"},
                             {rows.entries, "line of the book", "lines of the book"},
                             {rows.forecasts, "answer about the weather", "answers about the weather"},
                             {rows.plans, "plan", "plans"},
                             {rows.sheets, "sheet", "sheets"},
                             {rows.invoices, "invoice", "invoices"},
                             {rows.photographs, "photograph", "photographs"}}) {
    if (count.number == 0) continue;
    out += fmt::format("{}{} {}", out.empty() ? "" : ", ", count.number,
                       count.number == 1 ? count.one : count.many);
  }
  return out;
}

files::Json rows_json(const record::PackedRows& rows) {
  return {{"documents", rows.documents},    {"entries", rows.entries},
          {"forecasts", rows.forecasts},    {"plans", rows.plans},
          {"sheets", rows.sheets},          {"invoices", rows.invoices},
          {"photographs", rows.photographs}};
}

files::Json lost_json(const std::vector<record::LostPhotograph>& lost) {
  files::Json out = files::Json::array();
  for (const record::LostPhotograph& one : lost) {
    out.push_back({{"line", one.photograph.line},
                   {"sha256", one.photograph.content},
                   {"state", record::words_of(one.state)}});
  }
  return out;
}

// "line 3, 3fa291c0 (missing)", all of them: whoever packs without them is to know which.
std::string lost_in_words(const std::vector<record::LostPhotograph>& lost) {
  std::vector<std::string> words;
  words.reserve(lost.size());
  for (const record::LostPhotograph& one : lost) {
    words.push_back(fmt::format("line {}, {} ({})", one.photograph.line, record::mark_of(one.photograph),
                                record::words_of(one.state)));
  }
  return fmt::format("{}", fmt::join(words, "; "));
}

files::Json label_json(const record::PackedLabel& label, const std::string& schema) {
  files::Json out = files::export_document(schema);
  out["job"] = label.job;
  out["packed_at"] = base::iso_utc(label.made_at);
  out["program"] = label.program;
  out["content"] = label.content;
  out["rows"] = rows_json(label.rows);
  return out;
}

// Enough of it for two people to compare over the telephone.
std::string mark_of(const record::PackedLabel& label) {
  return fmt::format("{} {} {}", label.content.substr(0, 4), label.content.substr(4, 4),
                     label.content.substr(8, 4));
}

ExitCode pack(const Arguments& arguments, const Setting& setting) {
  const desk::OpenJob open = setting.shelf.open(arguments.positionals.front(), setting.zones);
  if (!open.kept) throw UsageError("A file has nothing beside itself to pack. Name a job that is kept.");
  const std::string file =
      arguments.positionals.size() > 1 ? arguments.positionals[1] : open.job.name + ".packed";
  const record::PackedJob packed = desk::pack_job(
      setting.shelf, open, setting.version, moment_of(arguments, setting, open.job),
      arguments.has("--without-lost") ? record::LostOnes::leave_out : record::LostOnes::refuse);
  record::write_new_file(file, packed.bytes);
  // What lies on the disk is what counts.
  const record::PackedLabel label = record::check_packed(record::read_whole_file(file), file);
  return answer(
      arguments, setting,
      [&] {
        files::Json out = label_json(label, "packed-job");
        out["file"] = file;
        out["lost_photographs"] = lost_json(packed.lost);
        return out;
      },
      [&] {
        render::Page page(setting.ink);
        page.text(fmt::format("{} ({} kB): {}. Read back and compared; its mark is {}.", file,
                              (packed.bytes.size() + 999) / 1000, rows_in_words(label.rows), mark_of(label)));
        if (!packed.lost.empty())
          page.text(fmt::format("These photographs are lost and not in it: {}.", lost_in_words(packed.lost)));
        page.text(fmt::format(
            "Bring it in elsewhere with \"weatherstruck unpack {}\". Go on with the job in one place "
            "only: one that went on in two cannot be put together again.",
            file));
        return page.str();
      });
}

std::string unpacked_text(const record::Unpacked& done, const std::string& file, render::Ink ink) {
  const record::PackedLabel& label = done.label;
  render::Page page(ink);
  const auto tell_lost = [&] {
    if (!done.lost.empty())
      page.text(fmt::format("These photographs were lost where it was packed, and are not here either: {}.",
                            lost_in_words(done.lost)));
  };
  if (done.added == record::PackedRows{}) {
    page.text(
        fmt::format("The job \"{}\" is here as it was packed; {}. Its mark is {}.", label.job,
                    done.photograph_files == 0 ? std::string("nothing was to be done")
                    : done.photograph_files == 1
                        ? std::string("one photograph that was lost was put back")
                        : fmt::format("{} photographs that were lost were put back", done.photograph_files),
                    mark_of(label)));
    tell_lost();
    return page.str();
  }
  page.text(fmt::format("{} \"{}\": {}. Compared with {}, row by row; its mark is {}.",
                        done.fresh ? "Brought in the job" : "Added to the job", label.job,
                        rows_in_words(done.added), file, mark_of(label)));
  tell_lost();
  if (!done.closed_series.empty()) {
    std::string series;
    for (const std::string& one : done.closed_series)
      series += fmt::format("{}\"{}\"", series.empty() ? "" : ", ", one);
    page.text(
        fmt::format("Its invoices of series {} were numbered where it comes from, and are numbered on there "
                    "alone, so that "
                    "no number is given twice. Invoices made here take a series of their own: --series {}-b.",
                    series, done.closed_series.front()));
  }
  page.text(fmt::format("Next: weatherstruck morning {}", label.job));
  return page.str();
}

ExitCode unpack(const Arguments& arguments, const Setting& setting) {
  const std::string& file = arguments.positionals.front();
  const record::Unpacked done = desk::unpack_job(setting.shelf, record::read_whole_file(file), file,
                                                 setting.zones, setting.machine_now);
  return answer(
      arguments, setting,
      [&] {
        files::Json out = label_json(done.label, "unpacked-job");
        out["fresh"] = done.fresh;
        out["added"] = rows_json(done.added);
        out["closed_series"] = done.closed_series;
        out["photographs_written"] = done.photograph_files;
        out["lost_photographs"] = lost_json(done.lost);
        return out;
      },
      [&] { return unpacked_text(done, file, setting.ink); });
}

}  // namespace

Command pack_command() {
  return {
      {"pack",
       "a whole job in one file, to put away or take to another machine",
       "Its documents, site book, the weather it went by, plans, sheets, invoices and photographs, with a "
       "mark "
       "by which every row and photograph is compared when it is brought in. Where a photograph's file is "
       "missing or was changed nothing is written and each is named, unless it is to go without them. The "
       "job stays here as well: go on with it in one place "
       "only. Who you are comes with its plans; weather of past years does not.",
       {{"JOB", "its name"},
        {"FILE", "a file that is not there yet; else the job's name and .packed",
         Positional::Kind::optional}},
       false,
       {{"pack shed", "writes shed.packed"}, {"pack shed /media/stick/shed.packed", "onto a stick"}},
       {{"--without-lost", "", "although photographs are lost; they are named", false, ""}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return pack(arguments, setting); };
      }};
}

Command unpack_command() {
  return {
      {"unpack",
       "bring a packed job in",
       "As a new job, or, where it is kept here as it was when it was packed, what it has more; all of it "
       "or nothing. A job that has gone on here is left alone. Invoices that come with it are to be shown "
       "and credited; their series are numbered on where they were begun and not here.",
       {{"FILE", "what \"pack\" wrote"}},
       false,
       {{"unpack shed.packed", "on the other machine"}}},
      [](const Arguments& arguments) -> Run {
        return [arguments](const Setting& setting) { return unpack(arguments, setting); };
      }};
}

}  // namespace weatherstruck::app
