#include "me_ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "weatherstruck/base/text.h"
#include "weatherstruck/desk/me_talk.h"
#include "weatherstruck/trade/materials.h"
#include "weatherstruck/trade/operations.h"
#include "weatherstruck/works/answer_times.h"
#include "weatherstruck/works/answer_words.h"

namespace weatherstruck::desk {
namespace {

using works::Answer;
using works::Measure;
using works::Refused;

/// Bricks that one mason at the norm lays in an hour.
double norm_bricks() {
  return 1.0 / trade::row_for(trade::Operation::lay_facing).hours_per_unit;
}

std::string squeezed(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == ':') {
      out += c;
    }
  }
  return out;
}

/// A row of a table of mixes, by its key, its title, or the parts in its title ("1:5").
template <class Row>
const Row* mix_named(std::span<const Row> rows, std::string_view said) {
  const std::string wanted = squeezed(said);
  for (const Row& row : rows) {
    if (wanted == squeezed(row.key) || wanted == squeezed(row.title)) return &row;
  }
  if (wanted.find(':') == std::string::npos) return nullptr;
  for (const Row& row : rows) {
    const std::string title(row.title);
    const std::size_t comma = title.find(", ");
    const std::string parts = comma == std::string::npos ? title : title.substr(comma + 2);
    if (wanted == squeezed(parts.substr(0, parts.find(' ')))) return &row;
  }
  return nullptr;
}

template <class Row>
std::string all_mixes(std::span<const Row> rows) {
  std::string out;
  for (const Row& row : rows)
    out += (out.empty() ? "" : "; ") + std::string(row.title);
  return out;
}

Answer<std::string> mail_answer(std::string_view text) {
  if (works::says_none(text)) return std::string();
  const Refused refused{"a mail address, such as name@example.org, or none"};
  auto said = works::text_answer(text, 120);
  const auto* mail = std::get_if<std::string>(&said);
  if (mail == nullptr || mail->find(' ') != std::string::npos) return refused;
  const std::size_t at = mail->find('@');
  if (at == std::string::npos || at == 0 || at + 1 >= mail->size() ||
      mail->find('@', at + 1) != std::string::npos)
    return refused;
  return said;
}

std::string amount_text(double value, std::string_view unit) {
  return base::plain_number(value, 2) + " " + std::string(unit);
}

std::string or_none(const std::string& text) {
  return text.empty() ? "none" : text;
}

/// The questions; each function is a stretch of the talk.
class Asking {
 public:
  Asking(Talk& talk, const files::MeDocument& usual, bool kept, const files::ZoneSource& zones)
      : talk_(talk), zones_(zones), out_(usual), kept_(kept) {}

  files::MeDocument run() {
    who();
    pace();
    kit();
    hours();
    mixes();
    charges();
    return std::move(out_);
  }

 private:
  void who() {
    works::Me& me = out_.me;
    talk_.heading("Who you are");
    me.name = talk_.ask<std::string>(
        {"name", "Your name, or that of your firm, as an invoice bears it", me.name,
         "It stands on invoices and on what is handed to the customer."},
        [](auto text) { return works::text_answer(text, 120); },
        me.name.empty() ? std::nullopt : std::optional(me.name));
    me.address =
        text("address", "Your address, commas between its lines", me.address, 300, "It stands on invoices.");
    me.contact = talk_.ask<std::string>(
        {"contact", "A mail address for the weather services", or_none(me.contact),
         "Public weather services ask who is calling, so that they can write if something goes wrong. "
         "Without one no forecast is fetched; saved ones can still be read."},
        mail_answer, me.contact);
    me.home_zone = talk_.ask<base::Zone>(
        {"clock", "By which town's clock do you live?", me.home_zone.name(),
         "A town of your time zone, such as London, Dublin or New York. Times of leaving and of being home "
         "are "
         "by that clock."},
        [this](auto said) { return zone_answer(said, zones_); }, me.home_zone);
    me.limits.set = talk_.ask<trade::LimitSet>(
        {"rules", "Whose limits for cold, rain and wind: uk or us?",
         me.limits.set == trade::LimitSet::us ? "us" : "uk",
         "uk goes by British building practice, with metres; us by American, with feet."},
        [](auto said) -> Answer<trade::LimitSet> {
          const std::string word = squeezed(said);
          if (word == "uk" || word == "british") return trade::LimitSet::uk;
          if (word == "us" || word == "usa" || word == "american") return trade::LimitSet::us;
          return Refused{"uk or us"};
        },
        me.limits.set);
  }

  void pace() {
    works::Me& me = out_.me;
    const double norm = norm_bricks();
    const double usual = me.crew.front().pace * norm;
    const double bricks = talk_.ask<double>(
        {"bricks", "Facing bricks you lay in an hour, alone, on short walls", base::plain_number(usual, 0),
         fmt::format(
             "Mixing, carrying from the stack and a steady day counted in, not your best hour. The norm is "
             "{} an hour; all other work is taken to be as much quicker or slower.",
             base::plain_number(norm, 0))},
        [&](auto said) {
          static constexpr std::array<works::UnitWord, 2> units{{{"brick", 1}, {"anhour", 1}}};
          return works::amount_answer(
              said, std::ceil(norm * 0.2), norm * 3, units,
              fmt::format("bricks an hour from {} to {}, such as 50",
                          base::plain_number(std::ceil(norm * 0.2), 0), base::plain_number(norm * 3, 0)));
        },
        usual);
    me.crew.front().pace = std::round(bricks / norm * 1000) / 1000;
    mate();
  }

  void mate() {
    enum class Mate { none, labours, lays };
    works::Me& me = out_.me;
    const bool several = me.crew.size() > 2;
    const Mate usual = me.crew.size() < 2           ? Mate::none
                       : me.crew.back().lays_bricks ? Mate::lays
                                                    : Mate::labours;
    constexpr std::array<std::string_view, 3> words{"nobody", "a labourer", "a bricklayer"};
    const std::string shown = several ? "as kept" : std::string(words[static_cast<std::size_t>(usual)]);
    const auto chosen = talk_.ask<std::optional<Mate>>(
        {"mate", "Who comes with you: nobody, a labourer, or a bricklayer?", shown,
         "A labourer digs, mixes, carries and covers; a bricklayer lays as well. Both at the norm."},
        [](auto said) -> Answer<std::optional<Mate>> {
          const std::string word = squeezed(said);
          if (works::says_none(said) || word == "alone") return std::optional(Mate::none);
          for (const std::string_view labours :
               {"labourer", "alabourer", "laborer", "alaborer", "mate", "amate"}) {
            if (word == labours) return std::optional(Mate::labours);
          }
          for (const std::string_view lays : {"bricklayer", "abricklayer", "mason", "amason"}) {
            if (word == lays) return std::optional(Mate::lays);
          }
          return Refused{"nobody, a labourer, or a bricklayer"};
        },
        std::optional<Mate>());
    if (!chosen) return;  // as it was
    me.crew.resize(1);
    if (*chosen != Mate::none) me.crew.push_back({"mate", *chosen == Mate::lays, 1.0});
  }

  void kit() {
    works::Kit& kit = out_.me.kit;
    talk_.heading("What you have");
    const Measure measure = out_.me.limits.set == trade::LimitSet::us ? Measure::feet : Measure::metric;
    static constexpr std::array<works::UnitWord, 3> litres{{{"litre", 1}, {"l", 1}, {"liter", 1}}};
    kit.mixer = base::CubicMetres(amount("mixer", "A batch of your mixer, in litres",
                                         kit.mixer.value() * 1000, 0, 1000, litres, "litres",
                                         "What it turns out at once. none: you mix by hand.") /
                                  1000);
    static constexpr std::array<works::UnitWord, 3> areas{{{"m2", 1}, {"sqm", 1}, {"sqft", 0.3048 * 0.3048}}};
    kit.hessian = base::SquareMetres(amount("hessian", "Hessian to cover fresh work, in square metres",
                                            kit.hessian.value(), 0, 1000, areas, "m2",
                                            "It keeps off frost and sun. none: you have none."));
    kit.sheet = base::SquareMetres(amount("sheet", "Sheeting to cover fresh work, in square metres",
                                          kit.sheet.value(), 0, 1000, areas, "m2",
                                          "It keeps off rain, and holds the damp in."));
    const std::string canopy =
        kit.canopy ? fmt::format("{} x {} m", base::plain_number(kit.canopy->length.value(), 2),
                                 base::plain_number(kit.canopy->width.value(), 2))
                   : "none";
    const auto size = talk_.ask<std::optional<works::Size>>(
        {"canopy", "A canopy to lay under in the rain: the ground it covers", canopy,
         "Such as 3 x 3 m. It comes down before strong gusts and never stays up in a windy night."},
        [&](auto said) {
          return works::optional_size_answer(said, {1, 12}, {1, 12}, measure);
        },
        kit.canopy ? std::optional(works::Size{kit.canopy->length, kit.canopy->width})
                   : std::optional<works::Size>());
    if (!size) {
      kit.canopy.reset();
    } else {
      if (!kit.canopy) kit.canopy.emplace();
      kit.canopy->length = size->length;
      kit.canopy->width = size->width;
    }
    kit.floodlights =
        talk_.ask<bool>({"lights", "Lights to work by after dark?", kit.floodlights ? "yes" : "no",
                         "Digging, carrying and pointing can then go on in the evening."},
                        works::yes_no_answer, kit.floodlights);
    static constexpr std::array<works::UnitWord, 5> masses{
        {{"kg", 1}, {"t", 1000}, {"tonne", 1000}, {"lb", 0.45359237}, {"kilo", 1}}};
    kit.van_payload =
        base::Kilograms(amount("van", "What the van may carry, in kilograms", kit.van_payload.value(), 50,
                               20000, masses, "kg", "Its payload, from the plate or the papers."));
    static constexpr std::array<works::UnitWord, 3> volumes{
        {{"m3", 1}, {"cum", 1}, {"cuft", 0.028316846592}}};
    kit.van_volume =
        base::CubicMetres(amount("van-room", "The room in the van, in cubic metres", kit.van_volume.value(),
                                 0.2, 60, volumes, "m3", "Length by width by height of the load space."));
  }

  void hours() {
    works::Me& me = out_.me;
    talk_.heading("Your days on site");
    me.working_day = talk_.ask<works::DaySpan>(
        {"day", "Earliest start and latest stop on site", works::span_words(me.working_day),
         "The plan lays no work outside these; light, weather and quiet hours narrow them."},
        works::span_answer, me.working_day);
    me.longest_day = talk_.ask<base::Hours>(
        {"longest", "Most hours of work in one day", amount_text(me.longest_day.value(), "h"),
         "Driving is counted apart; work and wheel together over 13 h are told as a danger."},
        [](auto said) { return works::hours_answer(said, 1, 16); }, me.longest_day);
  }

  void mixes() {
    works::Practice& practice = out_.me.practice;
    practice.mortar = talk_.ask<trade::MortarClass>(
        {"mortar", "Your usual mortar above ground", std::string(trade::row_for(practice.mortar).title),
         "By parts, such as 1:5, or by class. Known are: " + all_mixes(trade::mortars()) + "."},
        [](auto said) -> Answer<trade::MortarClass> {
          if (const auto* row = mix_named(trade::mortars(), said)) return row->mortar;
          return Refused{all_mixes(trade::mortars())};
        },
        practice.mortar);
    practice.concrete = talk_.ask<trade::ConcreteMix>(
        {"concrete", "Your usual concrete for footings", std::string(trade::row_for(practice.concrete).title),
         "As it is ordered or batched. Known are: " + all_mixes(trade::concretes()) + "."},
        [](auto said) -> Answer<trade::ConcreteMix> {
          if (const auto* row = mix_named(trade::concretes(), said)) return row->mix;
          return Refused{all_mixes(trade::concretes())};
        },
        practice.concrete);
  }

  void charges() {
    talk_.heading("What you charge");
    const bool asked = talk_.ask<bool>(
        {"charges", kept_ && out_.rates ? "Change what you charge?" : "Say now what you charge?", "no",
         "It is needed for the first invoice and can wait until then: \"weatherstruck me\" asks again."},
        works::yes_no_answer, false);
    if (!asked) return;
    const bool us = out_.me.limits.set == trade::LimitSet::us;
    if (!out_.rates) out_.rates = account::Rates{.currency = *base::Currency::from_code(us ? "USD" : "GBP")};
    account::Rates& rates = *out_.rates;
    const base::Currency before = rates.currency;
    rates.currency = talk_.ask<base::Currency>(
        {"currency", "In which currency?", before.code(), "Its three letters, such as GBP, EUR or USD."},
        [](auto said) -> Answer<base::Currency> {
          std::string code(said);
          std::transform(code.begin(), code.end(), code.begin(),
                         [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; });
          if (const auto currency = base::Currency::from_code(code)) return *currency;
          return Refused{"the three letters of a currency, such as GBP"};
        },
        before);
    if (!(rates.currency == before)) rates = account::Rates{.currency = rates.currency};
    rates.day_work = money("day-work", "An hour of day work, before tax", rates.day_work,
                           "For work by the hour and extras without a price. none: you do none.");
    const auto* by_distance = std::get_if<account::TravelByDistance>(&rates.travel);
    const bool by_trip = std::holds_alternative<account::TravelByTrip>(rates.travel);
    if (!by_trip) {
      const auto mile = money("travel", "Travel, for each mile",
                              by_distance ? std::optional(by_distance->per_unit) : std::nullopt,
                              "none: travel is never charged by the mile.");
      rates.travel = mile ? account::Travel(account::TravelByDistance{*mile}) : account::Travel();
    }
    rates.on_materials = percent("materials", "What you put on the cost of materials", rates.on_materials,
                                 10000, "In per cent. none: at cost.");
    tax(rates, us);
    rates.payment_days = talk_.ask<int>(
        {"days-to-pay", "Days in which an invoice is to be paid", std::to_string(rates.payment_days),
         "Counted from its date."},
        [](auto said) { return works::count_answer(said, 0, 120, "day"); }, rates.payment_days);
    out_.me.pay_to = text("pay-to", "How you are paid, as an invoice says it", out_.me.pay_to, 300,
                          "Bank, sort code and account, say.");
  }

  void tax(account::Rates& rates, bool us) {
    const std::string name = us ? "Sales tax" : "VAT";
    const int rate = percent("tax", name + " that you charge", rates.tax.rate, 10000,
                             "In per cent. none: you are not registered.");
    if (rate == 0) {
      rates.tax = account::no_tax("Not registered for " + name, name);
      out_.me.tax_number.clear();
      return;
    }
    rates.tax = account::tax_at(rate, name);
    std::string& number = out_.me.tax_number;
    number = talk_.ask<std::string>(
        {"tax-number", "Your " + name + " number", number, "An invoice that charges tax must bear it."},
        [](auto said) { return works::text_answer(said, 40); },
        number.empty() ? std::nullopt : std::optional(number));
  }

  std::string text(std::string key, std::string words, const std::string& usual, std::size_t longest,
                   std::string help) {
    return talk_.ask<std::string>(
        {std::move(key), std::move(words), or_none(usual), std::move(help)},
        [longest](auto said) { return works::optional_text_answer(said, longest); }, usual);
  }

  double amount(std::string key, std::string words, double usual, double low, double high,
                std::span<const works::UnitWord> units, std::string_view unit, std::string help) {
    const std::string said_range =
        fmt::format("{} from {} to {}", unit, base::plain_number(low, 2), base::plain_number(high, 2));
    return talk_.ask<double>(
        {std::move(key), std::move(words), usual == 0 ? "none" : amount_text(usual, unit), std::move(help)},
        [=](auto said) { return works::amount_answer(said, low, high, units, said_range); }, usual);
  }

  int percent(std::string key, std::string words, int usual, int most, std::string help) {
    return talk_.ask<int>(
        {std::move(key), std::move(words), usual == 0 ? "none" : account::percent_text(usual),
         std::move(help)},
        [most](auto said) -> Answer<int> {
          std::string without(said);
          without.erase(std::remove(without.begin(), without.end(), '%'), without.end());
          const auto number = works::amount_answer(without, 0, most / 100.0, {}, "per cent from 0 to 100");
          if (const auto* refused = std::get_if<Refused>(&number)) return *refused;
          return static_cast<int>(std::lround(std::get<double>(number) * 100));
        },
        usual);
  }

  std::optional<base::Money> money(std::string key, std::string words,
                                   const std::optional<base::Money>& usual, std::string help) {
    const base::Currency currency = out_.rates->currency;
    return talk_.ask<std::optional<base::Money>>(
        {std::move(key), std::move(words), usual ? usual->text() : "none", std::move(help)},
        [currency](auto said) -> Answer<std::optional<base::Money>> {
          if (works::says_none(said)) return std::optional<base::Money>();
          auto amount = works::money_answer(said, currency);
          if (auto* refused = std::get_if<Refused>(&amount)) return Refused{refused->allowed + ", or none"};
          const auto& value = std::get<base::Money>(amount);
          return value.minor() == 0 ? std::optional<base::Money>() : std::optional(value);
        },
        std::optional(usual));
  }

  Talk& talk_;
  const files::ZoneSource& zones_;
  files::MeDocument out_;
  bool kept_;
};

}  // namespace

files::MeDocument ask_about_him(Talk& talk, const files::MeDocument& usual, bool kept,
                                const files::ZoneSource& zones) {
  return Asking(talk, usual, kept, zones).run();
}

}  // namespace weatherstruck::desk
