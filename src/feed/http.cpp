#include "weatherstruck/feed/http.h"

#include <algorithm>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::feed {
namespace {

constexpr std::size_t most_contact_bytes = 100;

bool is_blank(char c) {
  return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front()))
    text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back()))
    text.remove_suffix(1);
  return text;
}

// A dot with something on both sides of it.
bool looks_like_host(std::string_view text) {
  const auto slash = text.find('/');
  const std::string_view host = text.substr(0, slash);
  const auto dot = host.rfind('.');
  return dot != std::string_view::npos && dot > 0 && dot + 1 < host.size();
}

bool looks_like_contact(std::string_view text) {
  if (text.size() > most_contact_bytes) return false;
  // Printable and without brackets, which would end or open a comment of the header.
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return c > ' ' && c < 0x7f && c != '(' && c != ')' && c != '\\' && c != '"';
  });
  if (!plain) return false;
  if (const auto at = text.find('@'); at != std::string_view::npos) {
    return at > 0 && looks_like_host(text.substr(at + 1));
  }
  const auto scheme = text.find("://");
  return looks_like_host(scheme == std::string_view::npos ? text : text.substr(scheme + 3));
}

}  // namespace

const std::string* HttpResponse::header(std::string_view lower_case_name) const {
  const auto found = std::find_if(headers.begin(), headers.end(),
                                  [&](const auto& entry) { return entry.first == lower_case_name; });
  return found == headers.end() ? nullptr : &found->second;
}

std::string user_agent(std::string_view version, std::string_view contact) {
  const std::string_view plain = trimmed(contact);
  const auto refuse = [&](std::string code, std::string found) {
    throw base::InputError("contact", {{std::move(code), "contact", std::move(found),
                                        "a mail address or a site of your own, such as name@example.org",
                                        "Give one: the weather services answer only those who say how they "
                                        "can be reached, and see it with every request."}});
  };
  if (plain.empty()) refuse("no-contact", "nothing");
  if (!looks_like_contact(plain)) refuse("bad-contact", std::string(plain.substr(0, 60)));
  std::string out = "weatherstruck/";
  out += version;
  out += ' ';
  out += plain;
  return out;
}

std::string without_query(std::string_view url) {
  const auto scheme = url.find("://");
  if (scheme == std::string_view::npos) return std::string(url.substr(0, url.find_first_of("?#")));
  std::string_view rest = url.substr(scheme + 3);
  rest = rest.substr(0, rest.find_first_of("?#"));
  const auto slash = rest.find('/');
  const auto at = rest.substr(0, slash).rfind('@');
  if (at != std::string_view::npos) rest.remove_prefix(at + 1);
  std::string out(url.substr(0, scheme + 3));
  out += rest;
  return out;
}

std::string without_queries(std::string_view text) {
  std::string out;
  std::size_t at = 0;
  while (at < text.size()) {
    if (static_cast<unsigned char>(text[at]) <= ' ' || text[at] == 0x7f) {
      if (!out.empty() && out.back() != ' ') out += ' ';
      ++at;
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && static_cast<unsigned char>(text[end]) > ' ' && text[end] != 0x7f)
      ++end;
    out += without_query(text.substr(at, end - at));
    at = end;
  }
  while (!out.empty() && out.back() == ' ')
    out.pop_back();
  return out;
}

}  // namespace weatherstruck::feed
