#include "weatherstruck/desk/job_talk.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <utility>

#include "job_ask.h"
#include "job_change.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/files/job_reader.h"
#include "weatherstruck/files/job_writer.h"
#include "weatherstruck/render/job_recap.h"
#include "weatherstruck/render/page.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/quantities.h"

namespace weatherstruck::desk {
namespace {

/// ", footing depth of the bed" for a place in a part; else nothing.
std::string whose(const std::string& place, const works::Job& job) {
  constexpr std::string_view parts = "/parts/";
  if (place.rfind(parts, 0) != 0) return {};
  const std::size_t slash = place.find('/', parts.size());
  const std::string number = place.substr(parts.size(), slash - parts.size());
  if (number.empty() || number.size() > 3 || number.find_first_not_of("0123456789") != std::string::npos)
    return {};
  const std::size_t at = std::stoul(number);
  if (at >= job.parts.size()) return {};
  std::string key = slash == std::string::npos ? "" : place.substr(slash + 1);
  std::replace(key.begin(), key.end(), '_', ' ');
  return ", " + (key.empty() ? "" : key + " of the ") + works::name_of(job.parts[at]);
}

/// The strip of a bed or a wall is not asked for: what is taken as usual stands among what was assumed.
bool can_be_asked(const std::string& place, const works::Job& job) {
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    const std::string part = "/parts/" + std::to_string(i) + "/";
    if (std::holds_alternative<works::Bed>(job.parts[i]) && place.rfind(part + "footing_", 0) == 0)
      return false;
    if (std::holds_alternative<works::Footing>(job.parts[i]) && place.rfind(part, 0) == 0) return false;
  }
  return true;
}

/// The entries of a recap that the last one did not have in these words; an entry is a line that does not
/// open with a space and those behind it that do.
std::string news_of(const std::string& recap, const std::string& before) {
  std::string news;
  std::size_t at = 0;
  while (at < recap.size()) {
    std::size_t end = recap.find('\n', at);
    while (end != std::string::npos && end + 1 < recap.size() && recap[end + 1] == ' ')
      end = recap.find('\n', end + 1);
    end = end == std::string::npos ? recap.size() : end + 1;
    const std::string entry = recap.substr(at, end - at);
    if (before.find(entry) == std::string::npos) news += entry;
    at = end;
  }
  return news.empty() ? "As it was.\n" : news;
}

/// Shows the job, says what was assumed, and asks whether to keep it.
/// @param shown what stood there the last time, replaced; what has not changed since is not shown again
bool offer(Talk& talk, const works::Job& job, std::string& document, const files::ZoneSource& zones,
           const std::map<works::Name, std::string>& part_keys, bool at_length, std::string& shown) {
  std::string assumed;
  document = files::write_job(job);
  const files::JobRead read = files::read_job(document, zones);
  talk.heading("That makes");
  const bool first = shown.empty();
  if (read.faults.empty()) {
    const std::string recap = render::job_recap(job, works::bill_of(job));
    talk.show(shown.empty() ? recap : news_of(recap, shown));
    shown = recap;
    for (const std::string& one : render::assumed_in(job))
      assumed += (assumed.empty() ? "Assumed, and open to change in the document: " : "; ") + one;
    assumed += ".";
    if (at_length) talk.say(assumed);
  }
  for (const base::Fault& fault : read.advice) {
    if (!can_be_asked(fault.place, job)) continue;
    talk.say("Caution" + whose(fault.place, job) + ": " + fault.found + "; usual: " + fault.expected + ". " +
             fault.remedy);
  }
  for (const base::Fault& fault : read.faults)
    talk.say("This cannot be: " + base::to_text(fault));
  std::vector<std::string> left;
  // What stands above is not said twice.
  for (const Talk::Unasked& one : talk.unasked()) {
    const std::string topic = topic_of(one.key);
    const bool above = topic == "name" || topic == "footing" || topic == "noise" || topic == "way in";
    if (!above) left.push_back(topic + " (" + one.usual + ")");
  }
  if (!left.empty() && first) {
    talk.say("Left as usual: " + base::join_and(left) + ".");
  }
  // Nothing was said of plates: how they are taken off is said with the part itself.
  const bool plates = std::any_of(job.parts.begin(), job.parts.end(), [](const works::Part& part) {
    const auto* base = std::get_if<works::Base>(&part);
    return base != nullptr && base->plates;
  });
  talk.say("To change something, name it: change dates, change " +
           (part_keys.empty() ? std::string("home")
            : plates          ? "plates"
                              : part_keys.begin()->first) +
           (at_length ? "." : ". \"assumed\" tells what else was assumed."));
  return talk.ask<bool>(
      {"keep", "Keep it?", "yes",
       "no leaves with nothing kept; \"change dates\", \"change way in\" and the like ask that again and "
       "keep the "
       "rest."},
      [&](std::string_view said) -> works::Answer<bool> {
        // "None" is an answer to many a question, but hardly to this one.
        if (said == "assumed") return works::Refused{"yes, no, or change and what", assumed};
        if (said == "none" || said == "nothing") return works::Refused{"yes, or no to throw it all away"};
        auto answer = works::yes_no_answer(said);
        if (const bool* yes = std::get_if<bool>(&answer)) {
          if (*yes && !read.faults.empty())
            return works::Refused{"change and what is to be put right, or quit",
                                  "It cannot be kept as it is."};
          return answer;
        }
        auto keys = keys_to_change(said, talk.keys(), part_keys);
        if (auto* refused = std::get_if<works::Refused>(&keys)) return *refused;
        talk.reopen(std::get<std::vector<std::string>>(std::move(keys)));
      },
      read.faults.empty() ? std::optional(true) : std::nullopt);
}

}  // namespace

JobTalk ask_job(Talk& talk, const files::MeDocument& me, base::Instant now,
                const std::vector<std::string>& taken, const files::ZoneSource& zones, bool all) {
  JobTalk out;
  bool keep = false;
  std::string shown;
  if (!all) talk.short_form(in_short_form);
  out.end = talk.run([&] {
    JobAsk ask(talk, me, now, taken, zones);
    out.job = ask.run();
    keep = offer(talk, *out.job, out.document, zones, ask.part_keys(), all, shown);
  });
  if (out.end == TalkEnd::through && !keep) out.end = TalkEnd::left;
  if (out.end != TalkEnd::through) {
    out.job.reset();
    out.document.clear();
  }
  return out;
}

JobTalk ask_copy(Talk& talk, const works::Job& job, const std::string& name, base::Instant now,
                 const files::ZoneSource& zones) {
  JobTalk out;
  bool keep = false;
  out.end = talk.run([&] {
    works::Job copy = job;
    copy.name = name;
    copy.ground.clear();
    talk.heading("The trip of " + name);
    ask_trip(talk, copy, now);
    const base::Zone& site = copy.site.zone;
    const auto moved = site.day_of(copy.trip.leave_home) - site.day_of(job.trip.leave_home);
    for (works::Delivery& delivery : copy.supplies.deliveries)
      delivery.at = site.to_instant_earliest(site.to_local(delivery.at) + moved);
    if (!copy.supplies.deliveries.empty())
      talk.say("Deliveries are moved by as many days; ask the merchant.");
    if (!copy.fixed.empty()) talk.say("Appointments of the old trip are left off.");
    copy.fixed.clear();
    out.job = copy;
    std::string shown;
    keep = offer(talk, *out.job, out.document, zones, {}, true, shown);
  });
  if (out.end == TalkEnd::through && !keep) out.end = TalkEnd::left;
  if (out.end != TalkEnd::through) {
    out.job.reset();
    out.document.clear();
  }
  return out;
}

}  // namespace weatherstruck::desk
