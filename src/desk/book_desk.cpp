#include "weatherstruck/desk/book_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::desk {
namespace {

works::EntryKey key_for(const works::What& what, const std::string& when,
                        const std::optional<works::EntryKey>& corrects) {
  const std::string whole = fmt::format("{}|{}|{}|{}", files::kind_of(what), files::body_of(what).dump(),
                                        when, corrects.value_or(""));
  return "said-" + base::policy_hash(whole);
}

// The minute of sending is no part of what was said: without a clock time an entry is the one of its day.
works::EntryKey key_for(const works::Understood& said, const base::Zone& zone,
                        const std::optional<works::EntryKey>& corrects) {
  const std::string again = said.again ? "|again" : "";
  if (said.dated) return key_for(said.what, base::iso_utc(said.at) + again, corrects);
  works::What what = said.what;
  if (auto* span = std::get_if<works::StoodDown>(&what)) span->to = span->from;
  return key_for(what, base::iso_local(base::LocalTime(zone.day_of(said.at))) + again, corrects);
}

// What it would be without the question at its end.
std::string without_asking(std::string sentence) {
  constexpr std::string_view asking = " Right?";
  if (sentence.size() > asking.size() &&
      sentence.compare(sentence.size() - asking.size(), asking.size(), asking) == 0) {
    sentence.resize(sentence.size() - asking.size());
  }
  return sentence;
}

// What is in the book already stays as it was kept, whatever the hour at which it is said again.
std::string said_before(const OpenJob& open, const works::EntryKey& key, bool dated) {
  const auto& entries = open.book.entries();
  const auto place = std::find_if(entries.begin(), entries.end(),
                                  [&key](const works::Entry& entry) { return entry.key == key; });
  const auto counting = works::effective(open.book).entries;
  const bool counts = std::any_of(counting.begin(), counting.end(),
                                  [&key](const works::Entry& entry) { return entry.key == key; });
  std::string words = fmt::format(" In the book already, line {}{}.", place - entries.begin() + 1,
                                  counts ? "" : ", and corrected since");
  if (!dated) words += " If it was another one, say it with \"again\" or with its time.";
  return words;
}

Ready ready(const OpenJob& open, const works::Standing& standing, const works::Understood& said,
            base::Instant now, const std::optional<works::EntryKey>& corrects) {
  const base::Zone& zone = open.job.site.zone;
  const works::EntryKey key = key_for(said, zone, corrects);
  if (const works::Entry* there = open.book.find(key)) {
    return {*there,
            without_asking(works::shown_back(there->what, there->at, standing.list, zone, now)) +
                said_before(open, key, said.dated),
            true};
  }
  return {{key, said.what, said.at, now, corrects}, without_asking(said.sentence)};
}

std::string taken_besides(const OpenJob& open, const works::Standing& standing,
                          const std::vector<Ready>& ready, base::Instant now) {
  works::Book book = open.book;
  for (const Ready& one : ready)
    book.append(one.entry);
  const works::Standing then = works::standing_of(open.job, book, now);
  std::vector<std::string> titles;
  std::optional<base::Instant> latest;
  for (const works::TaskProgress& state : then.progress.tasks) {
    const works::TaskProgress* before = standing.progress.find(state.task);
    if (!state.taken || (before != nullptr && before->finished)) continue;
    titles.push_back("\"" + works::short_title(*then.list.find(state.task)) + "\"");
    latest = std::max(latest.value_or(*state.finished), *state.finished);
  }
  if (titles.empty()) return "";
  return fmt::format("Then {} done too, by {} at the latest: {}.",
                     titles.size() == 1 ? "this is" : "these are",
                     base::day_and_time(open.job.site.zone.to_local(*latest)), base::join_and(titles));
}

}  // namespace

HeardText hear(const OpenJob& open, const works::Standing& standing, std::string_view text, base::Instant now,
               base::Currency currency, const std::optional<works::EntryKey>& corrects) {
  works::Surroundings around{now, currency, {}};
  for (const works::TaskProgress& task : standing.progress.tasks) {
    if (task.finished && !corrects) around.finished.push_back(task.task);
  }
  HeardText out;
  const works::BookWords words(open.job, standing.list);
  for (works::Heard& heard : words.read(text, around)) {
    const auto* understood = std::get_if<works::Understood>(&heard.reading);
    if (understood == nullptr) {
      out.doubts.push_back(std::move(heard));
      continue;
    }
    Ready one = ready(open, standing, *understood, now, corrects);
    const bool twice = std::any_of(out.ready.begin(), out.ready.end(),
                                   [&one](const Ready& other) { return other.entry.key == one.entry.key; });
    if (!twice) {
      out.ready.push_back(std::move(one));
    } else if (!one.there) {
      one.sentence +=
          " Said twice, kept once. If it was another one, say it with \"again\" or with its time.";
      one.there = true;
      out.ready.push_back(std::move(one));
    }
  }
  out.taken = taken_besides(open, standing, out.ready, now);
  return out;
}

works::Entry strike(const works::EntryKey& corrects, base::Instant now) {
  const works::What what = works::Struck{};
  return {key_for(what, base::iso_utc(now), corrects), what, now, now, corrects};
}

KeptEntries keep_entries(Shelf& shelf, OpenJob& open, const std::vector<works::Entry>& entries,
                         const files::ZoneSource& zones, base::Instant now) {
  base::Faults faults;
  for (const works::Entry& entry : entries) {
    for (base::Fault& fault : works::faults_of(entry))
      faults.push_back(std::move(fault));
  }
  if (!faults.empty()) throw base::InputError("the site book", std::move(faults));
  const auto remarks_now = [&] { return works::standing_of(open.job, open.book, now).progress.remarks; };
  const std::vector<works::Remark> before = remarks_now();
  const KeptAs kept = open.kept.value();
  KeptEntries out;
  shelf.store().in_one([&] {
    out = {};
    for (const works::Entry& entry : entries) {
      record::NewEntry row;
      row.key = entry.key;
      row.kind = files::kind_of(entry.what);
      row.at = entry.at;
      row.zone = open.job.site.zone.name();
      row.noted_at = entry.noted_at;
      row.body = files::body_of(entry.what).dump();
      if (entry.corrects) {
        const auto rows = shelf.store().entries(kept.id);
        const auto named = std::find_if(rows.begin(), rows.end(),
                                        [&](const record::Entry& it) { return it.key == *entry.corrects; });
        if (named != rows.end()) row.corrects = named->id;
      }
      (shelf.store().append(kept.id, row).added ? out.added : out.there_already) += 1;
    }
  });
  open = shelf.open(open.source, zones);
  for (works::Remark& remark : remarks_now()) {
    if (std::find(before.begin(), before.end(), remark) == before.end())
      out.remarks.push_back(std::move(remark));
  }
  return out;
}

std::vector<BookLine> book_lines(const OpenJob& open, const works::Standing& standing, base::Instant now) {
  std::set<works::EntryKey> counting;
  for (const works::Entry& entry : works::effective(open.book).entries)
    counting.insert(entry.key);
  std::vector<BookLine> lines;
  for (const works::Entry& entry : open.book.entries()) {
    BookLine line;
    line.number = static_cast<std::int64_t>(lines.size()) + 1;
    line.entry = entry;
    line.words =
        std::holds_alternative<works::Struck>(entry.what)
            ? "struck out"
            : without_asking(works::shown_back(entry.what, entry.at, standing.list, open.job.site.zone, now));
    line.counts = counting.count(entry.key) > 0;
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace weatherstruck::desk
