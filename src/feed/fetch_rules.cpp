#include "weatherstruck/feed/fetch_rules.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "weatherstruck/base/text.h"
#include "weatherstruck/feed/http_date.h"

namespace weatherstruck::feed {
namespace {

using base::Instant;
using std::chrono::milliseconds;
using std::chrono::seconds;

// The status of an exchange that brought nothing of use.
constexpr int unusable = 0;

bool printable(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c < 0x7f; });
}

std::string capitalised(std::string_view text) {
  std::string out(text);
  if (!out.empty() && out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

// "not asked again for 35 min", the minute begun counted whole. A span, since no zone is known here.
std::string not_again_for(seconds hold) {
  return "not asked again for " + age_in_words(std::chrono::ceil<std::chrono::minutes>(hold));
}

bool has_body(const std::optional<CachedAnswer>& stored) {
  return stored && !stored->body.empty();
}

// Whether the last exchange told us that the body is good, so that waiting needs no word.
bool ended_well(int status) {
  return status == 200 || status == 203 || status == 304;
}

bool may_be_asked(const CachedAnswer& stored, Instant now) {
  return now >= stored.expires || stored.expires - now > FetchRules::most_hold;
}

seconds bounded(std::optional<seconds> asked, seconds usual) {
  return std::clamp(asked.value_or(usual), FetchRules::least_hold, FetchRules::most_hold);
}

/// Turns one answer into a decision.
class Judge {
 public:
  Judge(const Asked& asked, Instant now, base::Random& random) : asked_(asked), now_(now), random_(random) {}

  Taken of(const HttpFailure& failure) {
    FetchTrouble trouble = in_words(failure);
    switch (failure.trouble) {
      case HttpTrouble::no_connection:
      case HttpTrouble::no_answer:
      case HttpTrouble::cut_short:
      case HttpTrouble::too_slow:
        return again_or_not(std::move(trouble), std::nullopt, std::nullopt);
      case HttpTrouble::no_name:
      case HttpTrouble::too_big:
      case HttpTrouble::redirects:
      case HttpTrouble::not_https:
      case HttpTrouble::certificate:
      case HttpTrouble::garbled:
      case HttpTrouble::other:
        break;
    }
    // The service heard us when it sent too much, nonsense, or sent us round; then it has a rest too.
    const bool answered = failure.trouble == HttpTrouble::too_big ||
                          failure.trouble == HttpTrouble::redirects ||
                          failure.trouble == HttpTrouble::garbled;
    Taken out;
    out.trouble = std::move(trouble);
    if (answered) out.store = held(unusable, FetchRules::least_hold);
    return out;
  }

  Taken of(const HttpResponse& response) {
    const int status = response.status;
    if (status == 200 || status == 203) return body_came(response);
    if (status == 304) return unchanged(response);
    if (status == 404) {
      Taken out =
          asked_.service == ForecastService::mosmix
              ? stop(status, FetchRules::refused_hold, "not-here",
                     name() + " has no forecast of that station (404).",
                     "Look for its number in the list of MOSMIX stations and give it as mosmix:NUMBER.")
              : stop(status, FetchRules::refused_hold, "not-here",
                     name() + " has no forecast for this place (404).",
                     "Check latitude and longitude of the site.");
      out.verdict = Verdict::not_here;
      return out;
    }
    if (status == 429) {
      const seconds hold = bounded(retry_after(response, now_), FetchRules::throttled_hold);
      return stop(status, hold, "throttled", name() + " was asked too often (429).",
                  "Wait: it is " + not_again_for(hold) + ".");
    }
    if ((status == 401 || status == 403) && asked_.service == ForecastService::open_meteo) {
      return stop(
          status, FetchRules::refused_hold, "refused",
          fmt::format("{} turns us away ({}): it does not take the key.", name(), status),
          "Check WEATHERSTRUCK_OPEN_METEO_KEY; it is " + not_again_for(FetchRules::refused_hold) + ".");
    }
    if (status == 401 || status == 403) {
      return stop(status, FetchRules::refused_hold, "refused",
                  fmt::format("{} turns us away ({}): it answers only those who say truly how to reach them.",
                              name(), status),
                  "Check that the contact you gave to \"weatherstruck me\" is a mail address or site of your "
                  "own; it is " +
                      not_again_for(FetchRules::refused_hold) + ".");
    }
    if (status == 408 || status == 499 || (status >= 500 && status <= 599)) {
      return again_or_not({"service-down", fmt::format("{} could not answer ({}).", name(), status), ""},
                          status, retry_after(response, now_));
    }
    if (status >= 400 && status <= 499) {
      return stop(status, FetchRules::refused_hold, "bad-request",
                  fmt::format("{} does not take the request ({}).", name(), status),
                  "Check latitude, longitude and altitude of the site; otherwise give a saved forecast.");
    }
    return stop(status, FetchRules::least_hold, "odd-answer",
                fmt::format("{} gave an answer that means nothing here ({}).", name(), status),
                "Try again later, or give a saved forecast.");
  }

 private:
  [[nodiscard]] std::string name() const { return capitalised(name_of(asked_.service)); }

  [[nodiscard]] seconds lasts(const HttpResponse& response) const {
    const seconds hold = bounded(lifetime(response, now_), FetchRules::least_hold);
    return asked_.rarely ? std::max(hold, FetchRules::least_hold_of_files) : hold;
  }

  // What was stored, with the next request put off.
  [[nodiscard]] CachedAnswer held(int status, seconds hold) const {
    CachedAnswer out;
    if (asked_.stored) out = *asked_.stored;
    if (!has_body(asked_.stored)) out.fetched_at = now_;
    out.url = asked_.url;
    out.status = status;
    out.expires = now_ + hold;
    return out;
  }

  [[nodiscard]] Taken stop(int status, seconds hold, std::string code, std::string found,
                           std::string remedy) const {
    Taken out;
    out.store = held(status, hold);
    out.trouble = FetchTrouble{std::move(code), std::move(found), std::move(remedy)};
    return out;
  }

  Taken again_or_not(FetchTrouble trouble, std::optional<int> status, std::optional<seconds> wanted) {
    Taken out;
    out.trouble = std::move(trouble);
    const bool too_long = wanted && *wanted > FetchRules::longest_wait;
    if (asked_.tries <= FetchRules::most_retries && !too_long) {
      out.verdict = Verdict::retry;
      const double drawn = (0.5 + random_.unit()) * static_cast<double>(1 << (asked_.tries - 1));
      out.wait = milliseconds(
          static_cast<milliseconds::rep>(drawn * static_cast<double>(FetchRules::first_wait.count())));
      if (wanted) out.wait = std::max<milliseconds>(out.wait, *wanted);
    }
    // Kept while retrying too: a run cut off in the wait leaves the service its rest. Without any answer
    // there is nobody to spare, and the next signal may be round the corner.
    if (status) {
      const seconds hold = bounded(wanted, FetchRules::least_hold);
      out.store = held(*status, hold);
      out.trouble->remedy = "It is " + not_again_for(hold) + ".";
    }
    return out;
  }

  Taken body_came(const HttpResponse& response) const {
    const seconds hold = lasts(response);
    std::optional<std::string> fault;
    const std::string* type = response.header("content-type");
    // An archive comes under many names; a web page in its place under one.
    const bool archive = asked_.service == ForecastService::mosmix;
    if (type != nullptr &&
        (archive ? type->find("html") != std::string::npos : type->find("json") == std::string::npos)) {
      fault = "it came as " + type->substr(0, 40);
    } else {
      fault = asked_.fault_in(response.body);
    }
    if (fault) {
      return stop(unusable, hold, "unreadable",
                  "What " + std::string(name_of(asked_.service)) + " sent cannot be read (" + *fault + ").",
                  "Try again later, or give a saved forecast.");
    }
    Taken out;
    out.verdict = Verdict::fresh;
    CachedAnswer store{asked_.url, response.body, {}, now_ + hold, now_, response.status};
    const std::string* modified = response.header("last-modified");
    if (modified != nullptr && printable(*modified)) store.last_modified = *modified;
    out.store = std::move(store);
    if (response.status == 203) {
      // MET Norway: a product about to end, or one on trial.
      out.note =
          sky::SeriesNote{"service-moves", name() +
                                               " says that this way of asking will end soon (203): look "
                                               "for a newer version of this program."};
    }
    return out;
  }

  Taken unchanged(const HttpResponse& response) const {
    if (!has_body(asked_.stored)) {
      return stop(unusable, FetchRules::least_hold, "odd-answer",
                  name() + " says \"not changed\" (304) and nothing is stored.", "Try again later.");
    }
    Taken out;
    out.verdict = Verdict::unchanged;
    out.store = held(304, lasts(response));
    out.store->fetched_at = now_;
    return out;
  }

  [[nodiscard]] FetchTrouble in_words(const HttpFailure& failure) const {
    const std::string detail = failure.detail.empty() ? "." : " (" + failure.detail + ").";
    switch (failure.trouble) {
      case HttpTrouble::no_name:
        return {"no-network",
                "No network: the name of " + std::string(name_of(asked_.service)) + " was not found" + detail,
                "Try again where the phone has a signal."};
      case HttpTrouble::no_connection:
        return {"no-connection", "No connection to " + std::string(name_of(asked_.service)) + detail,
                "Try again where the signal is better."};
      case HttpTrouble::no_answer:
        return {"no-answer", name() + " did not answer in time" + detail,
                "Try again where the signal is better."};
      case HttpTrouble::too_slow:
        return {"too-slow", "The forecast came too slowly and was given up" + detail,
                "Try again where the signal is better."};
      case HttpTrouble::cut_short:
        return {"cut-short", "The forecast broke off half way" + detail,
                "Try again where the signal is better."};
      case HttpTrouble::too_big:
        return {"too-big", "The answer is far bigger than a forecast and was given up" + detail,
                "Try again later, or give a saved forecast."};
      case HttpTrouble::redirects:
        return {"sent-round",
                name() + " sends us round in circles or to an address that is not allowed" + detail,
                "Try again later. On a public network, open a web page first: it may want to be agreed to."};
      case HttpTrouble::not_https:
        return {"not-https", "The address is not one that may be fetched; allowed is https" + detail,
                "Put the address right."};
      case HttpTrouble::certificate:
        return {"not-safe",
                "Whoever answers cannot prove to be " + std::string(name_of(asked_.service)) + detail,
                "Check date and time of this machine, and use another network: this one may read along."};
      case HttpTrouble::garbled:
        return {"garbled", "The answer cannot be unpacked" + detail,
                "Try again later, or give a saved forecast."};
      case HttpTrouble::other:
        break;
    }
    return {"fetch-failed", "The forecast could not be fetched" + detail,
            "Try again later, or give a saved forecast."};
  }

  const Asked& asked_;
  Instant now_;
  base::Random& random_;
};

}  // namespace

Step next_step(const std::optional<CachedAnswer>& stored, Instant now, bool offline) {
  Step out;
  if (offline) {
    out.kind = has_body(stored) ? StepKind::keep : StepKind::refuse;
    out.note = has_body(stored)
                   ? sky::SeriesNote{"offline", "Nobody was asked."}
                   : sky::SeriesNote{"offline", "Nobody was asked, and no forecast of this place is stored."};
    return out;
  }
  if (!stored) return out;
  if (!may_be_asked(*stored, now)) {
    out.kind = has_body(stored) ? StepKind::keep : StepKind::refuse;
    if (ended_well(stored->status) && has_body(stored)) return out;
    out.note = {"not-yet", "The service is " + not_again_for(stored->expires - now) +
                               ": its last answer was no forecast" +
                               (stored->status == unusable ? "." : fmt::format(" ({}).", stored->status))};
    return out;
  }
  // MET Norway: a 203 is never answered with 304.
  if (has_body(stored) && printable(stored->last_modified) && stored->status != 203) {
    out.if_modified_since = stored->last_modified;
  }
  return out;
}

Step next_mapping_step(const std::optional<CachedAnswer>& stored, Instant now, bool offline) {
  const bool settled = stored && (has_body(stored) ? ended_well(stored->status) : stored->status == 404);
  // A time of fetching that lies ahead is a clock put right since; then nothing is known of its age.
  if (settled && stored->fetched_at <= now && now - stored->fetched_at < FetchRules::mapping_kept) {
    Step out;
    out.kind = StepKind::keep;
    return out;
  }
  return next_step(stored, now, offline);
}

Taken take_answer(const Asked& asked, const HttpAnswer& answer, Instant now, base::Random& random) {
  Judge judge(asked, now, random);
  if (const auto* failure = std::get_if<HttpFailure>(&answer)) return judge.of(*failure);
  return judge.of(std::get<HttpResponse>(answer));
}

std::string age_in_words(seconds age) {
  const auto minutes = age.count() / 60;
  if (minutes < 1) return "less than a minute";
  if (minutes < 60) return fmt::format("{} min", minutes);
  const auto hours = minutes / 60;
  const auto with = [](std::string whole, long long rest, const char* unit) {
    return rest == 0 ? whole : fmt::format("{} {} {}", whole, rest, unit);
  };
  if (hours < 24) return with(fmt::format("{} h", hours), minutes % 60, "min");
  const auto days = hours / 24;
  return with(fmt::format("{} {}", days, days == 1 ? "day" : "days"), hours % 24, "h");
}

}  // namespace weatherstruck::feed
