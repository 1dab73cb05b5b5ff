#include "weatherstruck/app/manual.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "weatherstruck/app/command_table.h"
#include "weatherstruck/base/text.h"
#include "weatherstruck/render/speech.h"

namespace weatherstruck::app {
namespace {

constexpr std::string_view program = "weatherstruck";
constexpr std::string_view purpose = "days of small brickwork, planned around the weather";

struct ExitRow {
  ExitCode code;
  std::string_view meaning;
};
constexpr std::array<ExitRow, 6> exits{
    {{ExitCode::ok, "done"},
     {ExitCode::failed, "it ran and could not do it"},
     {ExitCode::usage, "the command line is wrong"},
     {ExitCode::invalid, "a file is wrong; its faults are listed"},
     {ExitCode::no_plan, "must-work is left out, or not home by the promise"},
     {ExitCode::stale, "the forecast is over"}}};

std::string option_words(const Option& option) {
  std::string text = option.also.empty() ? option.name : option.also + ", " + option.name;
  if (!option.value.empty()) text += " " + option.value;
  return text;
}

std::string line_of(const CommandRow& row) {
  std::string text = row.name;
  for (const Positional& positional : row.positionals) {
    const bool needed = positional.kind == Positional::Kind::needed;
    text += needed ? " " + positional.name : " [" + positional.name + "]";
  }
  return text;
}

void option_items(render::Page& page, const std::vector<Option>& options) {
  std::size_t widest = 0;
  for (const Option& option : options)
    widest = std::max(widest, option_words(option).size());
  for (const Option& option : options)
    page.item("  " + option_words(option), option.help, widest + 4);
}

// A minus sign that a reader can copy, and no macro by chance.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\') {
      out += "\\e";
    } else if (c == '-') {
      out += "\\-";
    } else {
      out += c;
    }
  }
  if (!out.empty() && (out[0] == '.' || out[0] == '\'')) out.insert(0, "\\&");
  return out;
}

std::string roff_option(const Option& option) {
  return fmt::format(".TP\n.B {}\n{}.\n", roff(option_words(option)), roff(render::capital(option.help)));
}

std::vector<std::string> first_words() {
  std::vector<std::string> words;
  for (const Command& command : commands()) {
    const std::string word = command.row.name.substr(0, command.row.name.find(' '));
    if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  return words;
}

std::string spaced(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words)
    text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

std::string overview(render::Ink ink) {
  render::Page page(ink);
  page.text(fmt::format("{}: {}.", program, purpose));
  page.heading("Use");
  page.text(fmt::format("{} COMMAND [FILE] [options]", program), 2);
  page.text(fmt::format("Begin with \"{0} me\", then \"{0} job ask\", then \"{0} plan JOB\".", program), 2);
  page.heading("Commands");
  std::size_t widest = 0;
  for (const Command& command : commands())
    widest = std::max(widest, command.row.name.size());
  for (const Command& command : commands())
    page.item("  " + command.row.name, command.row.help, widest + 4);
  page.heading("Options, before or after the command");
  option_items(page, global_options());
  page.gap();
  page.text(fmt::format("\"{} COMMAND --help\" tells more.", program));
  return page.str();
}

std::string help_for(const CommandRow& row, render::Ink ink) {
  render::Page page(ink);
  page.text(fmt::format("{} {}: {}.", program, row.name, row.help));
  page.heading("Use");
  page.text(fmt::format("{} {} [options]", program, line_of(row)), 2);
  page.gap();
  page.text(row.about);
  if (!row.positionals.empty()) {
    page.heading("Words");
    std::size_t widest = 4;
    for (const Positional& positional : row.positionals)
      widest = std::max(widest, positional.name.size());
    for (const Positional& positional : row.positionals)
      page.item("  " + positional.name, positional.help, widest + 4);
  }
  page.heading("Options");
  option_items(page, options_of(row));
  page.heading("For example");
  for (const Example& example : row.examples) {
    page.text(fmt::format("{}:", example.what), 2);
    page.text(fmt::format("{} {}", program, example.line), 4);
  }
  return page.str();
}

std::string man_page() {
  std::string out = ".\\\" Made from the command table by scripts/update-golden; change the table.\n";
  out += ".TH WEATHERSTRUCK 1\n.SH NAME\n";
  out += fmt::format("{} \\- {}\n", program, roff(purpose));
  out += fmt::format(".SH SYNOPSIS\n.B {}\n.I COMMAND\n[\n.I FILE\n] [\n.I options\n]\n", program);
  out += ".SH DESCRIPTION\n";
  out +=
      "Measures a job of small brickwork, reads a forecast and the daylight, plans the days under the limits "
      "of the "
      "trade, and writes a sheet for the morning.\n";
  out += ".SH COMMANDS\n";
  for (const Command& command : commands()) {
    const CommandRow& row = command.row;
    out += fmt::format(".SS {}\n{}.\n{}\n", roff(line_of(row)), roff(render::capital(row.help)),
                       roff(row.about));
    for (const Positional& positional : row.positionals)
      out += fmt::format(".TP\n.I {}\n{}.\n", roff(positional.name), roff(render::capital(positional.help)));
    for (const Option& option : row.options)
      out += roff_option(option);
  }
  out += ".SH OPTIONS\n";
  for (const Option& option : forecast_options())
    out += roff_option(option);
  for (const Option& option : global_options())
    out += roff_option(option);
  out += ".SH EXIT STATUS\n";
  for (const ExitRow& row : exits)
    out += fmt::format(".TP\n.B {}\n{}.\n", static_cast<int>(row.code),
                       roff(render::capital(std::string(row.meaning))));
  out += ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nNot empty: no bold headings.\n";
  out +=
      ".TP\n.B WEATHERSTRUCK_SERVICE\nAn address to ask for forecasts in place of the services' own: a "
      "mirror "
      "or relay of one's own that keeps their paths, by https, or a server on this machine, "
      "http://127.0.0.1:PORT. The rules of asking stay the same, and every run says that it is used.\n"
      ".TP\n.B WEATHERSTRUCK_OPEN_METEO_KEY\nYour own key for Open-Meteo, which is not asked without one: "
      "its "
      "free service is not for trade use. It is sent to that service only, and never kept or shown.\n";
  out += ".SH EXAMPLES\n";
  for (const Command& command : commands()) {
    for (const Example& example : command.row.examples)
      out += fmt::format(".TP\n.B {} {}\n{}.\n", program, roff(example.line),
                         roff(render::capital(example.what)));
  }
  return out;
}

std::string bash_completion() {
  std::vector<std::string> globals;
  for (const Option& option : global_options()) {
    globals.push_back(option.name);
    if (!option.also.empty()) globals.push_back(option.also);
  }
  std::string out = "# Made from the command table by scripts/update-golden; change the table.\n";
  out += "_weatherstruck() {\n";
  out += "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n";
  out += "  local i w first='' second=''\n";
  out += "  for ((i = 1; i < COMP_CWORD; i++)); do\n";
  out += "    w=${COMP_WORDS[i]}\n";
  out += "    case ${COMP_WORDS[i-1]} in --forecast | --now | --seed) continue ;; esac\n";
  out += "    [[ $w == -* ]] && continue\n";
  out += "    if [[ -z $first ]]; then first=$w; elif [[ -z $second ]]; then second=$w; fi\n";
  out += "  done\n";
  out += "  COMPREPLY=()\n";
  out += "  case $before in\n";
  out += "    --forecast) mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return ;;\n";
  out += "    --now | --seed) return ;;\n";
  out += "  esac\n";
  out += fmt::format("  local options='{}'\n", spaced(globals));
  out += "  case \"$first $second\" in\n";
  for (const Command& command : commands()) {
    const std::string& name = command.row.name;
    const bool two = name.find(' ') != std::string::npos;
    std::vector<std::string> own;
    for (const Option& option : command.row.options)
      own.push_back(option.name);
    if (command.row.forecast) {
      for (const Option& option : forecast_options())
        own.push_back(option.name);
    }
    if (own.empty()) continue;
    out +=
        fmt::format("    '{}'{}) options+=' {}' ;;\n", two ? name : name + " ", two ? "" : "*", spaced(own));
  }
  out += "  esac\n";
  out += "  if [[ $word == -* ]]; then\n";
  out += "    mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n";
  out += "    return\n  fi\n";
  out += "  case $first in\n";
  out += fmt::format("    '') mapfile -t COMPREPLY < <(compgen -W '{}' -- \"$word\"); return ;;\n",
                     spaced(first_words()));
  for (const std::string& word : first_words()) {
    std::vector<std::string> seconds;
    for (const Command& command : commands()) {
      if (command.row.name.rfind(word + " ", 0) == 0)
        seconds.push_back(command.row.name.substr(word.size() + 1));
    }
    if (seconds.empty()) continue;
    out += fmt::format(
        "    {}) [[ -z $second ]] && {{ mapfile -t COMPREPLY < <(compgen -W '{}' -- \"$word\"); return; }} "
        ";;\n",
        word, spaced(seconds));
  }
  out += "  esac\n";
  out += "  mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n";
  out += "}\n";
  out += "complete -o filenames -F _weatherstruck weatherstruck\n";
  return out;
}

}  // namespace weatherstruck::app
