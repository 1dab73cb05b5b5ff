#include "book_hear.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "book_meant.h"
#include "weatherstruck/base/digest.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/book_desk.h"
#include "weatherstruck/files/book_json.h"
#include "weatherstruck/files/plan_json.h"
#include "weatherstruck/works/said.h"

namespace weatherstruck::desk {

works::EntryKey key_for(const works::What& what, const std::string& when,
                        const std::optional<works::EntryKey>& corrects) {
  const std::string whole = fmt::format("{}|{}|{}|{}", files::kind_of(what), files::body_of(what).dump(),
                                        when, corrects.value_or(""));
  return "said-" + base::policy_hash(whole);
}

std::string without_asking(std::string sentence) {
  constexpr std::string_view asking = " Right?";
  if (sentence.size() > asking.size() &&
      sentence.compare(sentence.size() - asking.size(), asking.size(), asking) == 0) {
    sentence.resize(sentence.size() - asking.size());
  }
  return sentence;
}

namespace {

// The minute of sending is no part of what was said: without a clock time an entry is the one of its day.
works::EntryKey key_of_said(const works::Understood& said, const base::Zone& zone,
                            const std::optional<works::EntryKey>& corrects) {
  const std::string again = said.again ? "|again" : "";
  if (said.dated) return key_for(said.what, base::iso_utc(said.at) + again, corrects);
  works::What what = said.what;
  if (auto* span = std::get_if<works::StoodDown>(&what)) span->to = span->from;
  return key_for(what, base::iso_local(base::LocalTime(zone.day_of(said.at))) + again, corrects);
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
  const works::EntryKey key = key_of_said(said, zone, corrects);
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

// When hands were on which piece, for "it".
std::vector<works::WorkedOn> worked_on(const OpenJob& open, const works::TaskList& list) {
  std::vector<works::WorkedOn> worked;
  for (const works::Entry& entry : works::effective(open.book).entries) {
    const works::Task* task = nullptr;
    if (const auto* begun = std::get_if<works::Begin>(&entry.what)) task = list.find(begun->task);
    if (const auto* done = std::get_if<works::Done>(&entry.what)) task = list.find(done->task);
    if (task != nullptr && !task->of.empty()) worked.push_back({entry.at, task->of});
  }
  return worked;
}

/// Reads a text over and over, each time with one more question settled, until the rest has to be asked.
class Hearing {
 public:
  Hearing(const OpenJob& open, const works::Standing& standing, const HearRequest& request)
      : open_(open),
        standing_(standing),
        request_(request),
        words_(open.job, standing.list),
        around_{request.now, request.currency, request.answers, worked_on(open, standing.list)} {}

  HeardText hear() {
    std::vector<works::Heard> heard = words_.read(request_.text, around_);
    std::set<std::string> to_be_asked;
    while (const auto* open_question = next_question(heard, to_be_asked)) {
      const std::string words = open_question->words;
      if (around_.answers.size() > request_.answers.size() + heard.size()) break;
      if (auto meant = settle(*open_question, heard)) {
        around_.answers.push_back({words, meant->choice});
        if (!meant->because.empty()) because_[words] = std::move(meant->because);
        heard = words_.read(request_.text, around_);
      } else {
        to_be_asked.insert(words);
      }
    }
    return told(std::move(heard));
  }

 private:
  static constexpr std::size_t most_tried = 24;

  const works::Heard* next_question(const std::vector<works::Heard>& heard,
                                    const std::set<std::string>& asked) const {
    // What stands in for an entry must not be settled by that entry.
    if (request_.corrects) return nullptr;
    for (const works::Heard& one : heard) {
      const auto* question = std::get_if<works::Question>(&one.reading);
      if (question != nullptr && question->about != works::Question::About::other &&
          asked.count(one.words) == 0)
        return &one;
    }
    return nullptr;
  }

  [[nodiscard]] std::optional<Meant> settle(const works::Heard& asked,
                                            const std::vector<works::Heard>& heard) const {
    const auto& question = std::get<works::Question>(asked.reading);
    if (auto said = said_already(asked, question)) return said;
    works::Book book = open_.book;
    for (const works::Heard& other : heard) {
      if (const auto* good = std::get_if<works::Understood>(&other.reading))
        book.append(ready(open_, standing_, *good, request_.now, request_.corrects).entry);
    }
    return meant_by(question, standing_, book, request_.plan);
  }

  /// The same words sent again mean what they meant.
  [[nodiscard]] std::optional<Meant> said_already(const works::Heard& asked,
                                                  const works::Question& question) const {
    if (question.candidates.size() > most_tried || open_.book.size() == 0) return std::nullopt;
    std::optional<Meant> found;
    for (const std::string& candidate : question.candidates) {
      works::Surroundings around = around_;
      around.answers.push_back({asked.words, candidate});
      for (const works::Heard& again : words_.read(request_.text, around)) {
        const auto* good = std::get_if<works::Understood>(&again.reading);
        if (again.piece != asked.piece || good == nullptr) continue;
        if (open_.book.find(key_of_said(*good, open_.job.site.zone, request_.corrects)) == nullptr) continue;
        if (found) return std::nullopt;
        found = Meant{candidate, ""};
        break;
      }
    }
    return found;
  }

  /// "The trenches": those that were dug already are not meant.
  [[nodiscard]] std::set<std::pair<std::size_t, works::Name>> done_before(
      const std::vector<works::Heard>& heard) const {
    std::map<std::size_t, std::vector<const works::Understood*>> pieces;
    for (const works::Heard& one : heard) {
      const auto* good = std::get_if<works::Understood>(&one.reading);
      if (good != nullptr && std::holds_alternative<works::Done>(good->what))
        pieces[one.piece].push_back(good);
    }
    std::set<std::pair<std::size_t, works::Name>> out;
    for (const auto& [piece, all] : pieces) {
      if (all.size() < 2) continue;
      const works::Progress before = works::progress_of(standing_.job, standing_.list, open_.book,
                                                        all.front()->at - std::chrono::seconds(1));
      std::set<std::pair<std::size_t, works::Name>> finished;
      for (const works::Understood* good : all) {
        const works::Name& task = std::get<works::Done>(good->what).task;
        const works::TaskProgress* state = before.find(task);
        const bool there =
            open_.book.find(key_of_said(*good, open_.job.site.zone, request_.corrects)) != nullptr;
        if (!there && state != nullptr && state->finished) finished.emplace(piece, task);
      }
      if (finished.size() < all.size()) out.insert(finished.begin(), finished.end());
    }
    return out;
  }

  HeardText told(std::vector<works::Heard> heard) const {
    HeardText out;
    const auto left_out = done_before(heard);
    for (works::Heard& one : heard) {
      if (one.piece >= out.pieces.size()) out.pieces.push_back(one.words);
      const auto* good = std::get_if<works::Understood>(&one.reading);
      if (good == nullptr) {
        out.doubts.push_back(std::move(one));
        continue;
      }
      if (const auto* done = std::get_if<works::Done>(&good->what);
          done != nullptr && left_out.count({one.piece, done->task}) > 0)
        continue;
      Ready made = ready(open_, standing_, *good, request_.now, request_.corrects);
      if (const auto why = because_.find(one.words); why != because_.end() && !made.there)
        made.sentence += " Taken so, since " + why->second + ".";
      add(out.ready, std::move(made));
    }
    out.taken = taken_besides(open_, standing_, out.ready, request_.now);
    return out;
  }

  static void add(std::vector<Ready>& all, Ready one) {
    const bool twice = std::any_of(all.begin(), all.end(),
                                   [&one](const Ready& other) { return other.entry.key == one.entry.key; });
    if (twice && one.there) return;
    if (twice) {
      one.sentence +=
          " Said twice, kept once. If it was another one, say it with \"again\" or with its time.";
      one.there = true;
    }
    all.push_back(std::move(one));
  }

  const OpenJob& open_;
  const works::Standing& standing_;
  const HearRequest& request_;
  works::BookWords words_;
  works::Surroundings around_;
  std::map<std::string, std::string> because_;
};

}  // namespace

HeardText hear(const OpenJob& open, const works::Standing& standing, const HearRequest& request) {
  return Hearing(open, standing, request).hear();
}

std::optional<programme::Plan> plan_in_force(Shelf& shelf, const OpenJob& open) {
  const auto row = shelf.store().latest_plan(open.kept.value().id);
  if (!row) return std::nullopt;
  auto kept = files::read_plan(row->bytes);
  return kept ? std::optional(std::move(kept->plan)) : std::nullopt;
}

}  // namespace weatherstruck::desk
