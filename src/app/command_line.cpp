#include "weatherstruck/app/command_line.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>

#include "weatherstruck/app/command_table.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/feed/forecast_service.h"

namespace weatherstruck::app {
namespace {

// What the library's parser fills in, before it is held against the table.
struct Raw {
  std::vector<std::string> positionals;
  std::map<std::string, std::vector<std::string>> valued;  // by option, of the command and of the weather
  std::map<std::string, bool> flags;
  std::vector<std::string> now;
  std::vector<std::string> seed;
  bool json = false;
  bool no_color = false;
  bool help = false;
  bool version = false;
  bool man_page = false;
  bool completion = false;
};

bool is_option(const std::string& word) {
  // "-1" in "try JOB bed -1 course" is an amount.
  return word.size() > 1 && word[0] == '-' && (word[1] < '0' || word[1] > '9');
}

std::string see_help(const Command* command) {
  return fmt::format(" See \"weatherstruck {}--help\".",
                     command != nullptr ? command->row.name + " " : std::string());
}

std::string guess(const std::string& word, const std::vector<std::string>& known) {
  const auto near = base::nearest_name(word, known);
  return near ? fmt::format(" Did you mean \"{}\"?", *near) : std::string();
}

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const Command& command : commands())
    names.push_back(command.row.name);
  return names;
}

std::vector<std::string> option_names(const Command* command) {
  std::vector<std::string> names;
  for (const Option& option : command == nullptr ? global_options() : options_of(command->row))
    names.push_back(option.name);
  if (command == nullptr) names.push_back(forecast_options().front().name);
  return names;
}

// The second words of "job ...": empty where `word` opens no command.
std::vector<std::string> words_after(const std::string& word) {
  std::vector<std::string> out;
  for (const std::string& name : command_names()) {
    if (name.size() > word.size() && name.compare(0, word.size(), word) == 0 && name[word.size()] == ' ') {
      out.push_back(name.substr(word.size() + 1));
    }
  }
  return out;
}

[[noreturn]] void unknown_option(const std::string& word, const Command* command) {
  const std::string name = word.substr(0, word.find('='));
  const auto of = [&](const Command& other) {
    const std::vector<Option> options = options_of(other.row);
    return std::any_of(options.begin(), options.end(), [&](const Option& o) { return o.name == name; });
  };
  if (command != nullptr && std::any_of(commands().begin(), commands().end(), of)) {
    throw UsageError(fmt::format("\"{}\" takes no {}.{}", command->row.name, name, see_help(command)));
  }
  throw UsageError(
      fmt::format("No option {}.{}{}", name, guess(name, option_names(command)), see_help(command)));
}

[[noreturn]] void no_command(const std::vector<std::string>& words, const std::string& group) {
  if (!group.empty()) {
    const std::vector<std::string> known = words_after(group);
    if (words.empty()) {
      std::vector<std::string> whole;
      for (const std::string& word : known)
        whole.push_back(fmt::format("{} {}", group, word));
      throw UsageError(
          fmt::format("\"{}\" wants a second word: {}.{}", group, base::join_and(whole), see_help(nullptr)));
    }
    throw UsageError(fmt::format("No command \"{} {}\".{}{}", group, words.front(),
                                 guess(words.front(), known), see_help(nullptr)));
  }
  if (words.empty()) throw UsageError("Say what to do." + see_help(nullptr));
  // "forcast show" is nearer to a command than "forcast" alone.
  std::string meant = words.front();
  if (words.size() > 1) {
    const std::string both = fmt::format("{} {}", words[0], words[1]);
    if (base::nearest_name(both, command_names())) meant = both;
  }
  throw UsageError(
      fmt::format("No command \"{}\".{}{}", words.front(), guess(meant, command_names()), see_help(nullptr)));
}

// The one value of an option that does not repeat.
std::optional<std::string> only(const std::vector<std::string>& values, std::string_view name) {
  if (values.size() > 1)
    throw UsageError(fmt::format("{} is given {} times. Once is allowed.", name, values.size()));
  if (values.empty()) return std::nullopt;
  if (values.front().empty()) throw UsageError(fmt::format("{} wants a value.{}", name, see_help(nullptr)));
  return values.front();
}

std::uint64_t seed_of(const std::optional<std::string>& text) {
  if (!text) return Arguments{}.seed;
  const bool digits = !text->empty() && text->find_first_not_of("0123456789") == std::string::npos;
  // Nineteen digits always fit into 64 bits.
  if (!digits || text->size() > 19) {
    throw UsageError(
        fmt::format("--seed: found \"{}\"; allowed: a whole number of at most 19 digits.", *text));
  }
  return std::stoull(*text);
}

std::optional<std::string> now_of(std::optional<std::string> text) {
  if (text && !base::parse_iso_local(*text) && !base::parse_iso_instant(*text)) {
    throw UsageError(
        fmt::format("--now: found \"{}\"; allowed: a time such as 2026-02-09T06:30, in the site's time "
                    "or with an offset (2026-02-09T06:30Z).",
                    *text));
  }
  return text;
}

void define(CLI::App& app, Raw& raw) {
  app.set_help_flag();
  app.fallthrough();
  app.allow_extras();
  app.require_subcommand(0, 1);
  const auto many = [](CLI::Option* option) { option->allow_extra_args(false); };
  many(app.add_option("--now", raw.now));
  many(app.add_option("--seed", raw.seed));
  app.add_flag("--json", raw.json);
  app.add_flag("--no-color", raw.no_color);
  app.add_flag("-h,--help", raw.help);
  app.add_flag("--version", raw.version);
  app.add_flag("--dump-man", raw.man_page);
  app.add_flag("--dump-completion", raw.completion);

  std::map<std::string, CLI::App*> made;  // by all words so far
  for (const Command& command : commands()) {
    const std::string& name = command.row.name;
    CLI::App* at = &app;
    for (std::size_t begin = 0; begin < name.size();) {
      const std::size_t end = std::min(name.find(' ', begin), name.size());
      CLI::App*& next = made[name.substr(0, end)];
      if (next == nullptr) {
        next = at->add_subcommand(name.substr(begin, end - begin));
        next->allow_extras();
        next->require_subcommand(0, 1);
      }
      at = next;
      begin = end + 1;
    }
    std::vector<Option> own = command.row.options;
    if (command.row.forecast) own.insert(own.end(), forecast_options().begin(), forecast_options().end());
    for (const Option& option : own) {
      if (option.value.empty()) {
        at->add_flag(option.name, raw.flags[option.name]);
      } else {
        many(at->add_option(option.name, raw.valued[option.name]));
      }
    }
  }
}

// The command whose words were recognised, and what they were.
const Command* chosen(const CLI::App& app, std::string& group) {
  const CLI::App* at = &app;
  std::string name;
  while (!at->get_subcommands().empty()) {
    at = at->get_subcommands().front();
    name += (name.empty() ? "" : " ") + at->get_name();
  }
  const Command* command = find_command(name);
  if (command == nullptr) group = name;
  return command;
}

}  // namespace

Request read_command_line(const std::vector<std::string>& words) {
  Raw raw;
  CLI::App app;
  define(app, raw);
  std::vector<std::string> reversed(words.rbegin(), words.rend());
  // "help plan" is how many say "plan --help".
  if (!words.empty() && words.front() == "help") reversed.back() = "--help";
  try {
    app.parse(reversed);
  } catch (const CLI::ParseError& error) {
    // All that is left to the library to refuse: an option without its value, or a flag with one.
    const Option* longest = nullptr;  // "--forecast" and not the "--for" in it
    std::vector<Option> all = global_options();
    for (const Command& command : commands()) {
      const std::vector<Option> own = options_of(command.row);
      all.insert(all.end(), own.begin(), own.end());
    }
    for (const Option& option : all) {
      const bool named = std::string(error.what()).find(option.name) != std::string::npos;
      if (named && (longest == nullptr || option.name.size() > longest->name.size())) longest = &option;
    }
    if (longest == nullptr) throw UsageError("The line cannot be read." + see_help(nullptr));
    throw UsageError(longest->value.empty()
                         ? longest->name + " takes no value." + see_help(nullptr)
                         : fmt::format("{} wants {}.{}", longest->name,
                                       longest->value == "FILE" ? "a file" : "a value", see_help(nullptr)));
  }

  Request request;
  request.arguments.no_color = raw.no_color;
  std::string group;
  request.command = chosen(app, group);
  const std::vector<std::string> extras = app.remaining(true);
  if (raw.man_page || raw.completion) {
    request.kind = raw.man_page ? Request::Kind::man_page : Request::Kind::completion;
    return request;
  }
  const bool strays =
      std::any_of(extras.begin(), extras.end(), [](const std::string& w) { return !is_option(w); });
  if (words.empty() || (raw.help && (request.command != nullptr || !strays))) {
    request.kind = Request::Kind::help;
    return request;
  }
  if (raw.version) {
    request.kind = Request::Kind::version;
    return request;
  }
  std::vector<std::string> plain;
  for (const std::string& word : extras) {
    if (is_option(word)) {
      if (request.command == nullptr && group.empty() && !plain.empty()) break;
      unknown_option(word, request.command);
    }
    plain.push_back(word);
  }
  if (request.command == nullptr) no_command(plain, group);

  const CommandRow& row = request.command->row;
  const auto count = [&](Positional::Kind kind) {
    return std::count_if(row.positionals.begin(), row.positionals.end(),
                         [&](const Positional& positional) { return positional.kind == kind; });
  };
  if (plain.size() > row.positionals.size() && count(Positional::Kind::many) == 0) {
    throw UsageError(fmt::format("\"{}\": one word too many: {}.{}", row.name, plain[row.positionals.size()],
                                 see_help(request.command)));
  }
  if (plain.size() < static_cast<std::size_t>(count(Positional::Kind::needed))) {
    const Positional& missing = row.positionals[plain.size()];
    throw UsageError(fmt::format("\"{}\" wants {}: {}.{}", row.name, missing.name, missing.help,
                                 see_help(request.command)));
  }
  Arguments& arguments = request.arguments;
  arguments.positionals = std::move(plain);
  for (const Option& option : row.options) {
    if (option.value.empty() && raw.flags[option.name]) arguments.options[option.name] = {""};
    std::vector<std::string>& values = raw.valued[option.name];
    if (!option.repeats) (void)only(values, option.name);
    if (!values.empty()) arguments.options[option.name] = values;
  }
  if (row.forecast) {
    arguments.forecasts = std::move(raw.valued["--forecast"]);
    arguments.offline = raw.flags["--offline"];
    arguments.service = only(raw.valued["--service"], "--service").value_or("");
    arguments.beside = only(raw.valued["--beside"], "--beside").value_or("");
    if (!arguments.service.empty() && !feed::read_choice(arguments.service)) {
      throw UsageError(fmt::format(
          "--service: found \"{}\"; allowed: met-norway, nws, mosmix, mosmix:NUMBER or open-meteo.",
          arguments.service));
    }
    if (!arguments.service.empty() && !arguments.forecasts.empty()) {
      throw UsageError(
          "--service and --forecast are two answers to one question. Give one of them; a second "
          "source goes behind --beside.");
    }
    if (!arguments.forecasts.empty() && arguments.forecasts.back().empty())
      throw UsageError("--forecast wants a file." + see_help(request.command));
  }
  arguments.now = now_of(only(raw.now, "--now"));
  arguments.seed = seed_of(only(raw.seed, "--seed"));
  arguments.json = raw.json;
  return request;
}

}  // namespace weatherstruck::app
