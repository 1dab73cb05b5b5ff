#include "change_words.h"

#include <algorithm>
#include <utility>

namespace weatherstruck::files {

Words words_in(std::string_view text) {
  Words out;
  std::string word;
  for (const char c : text) {
    if (c == ' ' || c == '\t') {
      if (!word.empty()) out.push_back(std::exchange(word, {}));
    } else {
      word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (!word.empty()) out.push_back(word);
  return out;
}

std::string joined(const Words& words, std::size_t from, std::size_t to, char between) {
  std::string out;
  for (std::size_t i = from; i < to; ++i) {
    if (i > from) out += between;
    out += words[i];
  }
  return out;
}

std::string spaced(std::string key) {
  std::replace(key.begin(), key.end(), '_', ' ');
  return key;
}

std::string joined(const Words& words, char between) {
  return joined(words, 0, words.size(), between);
}

std::string change_example() {
  return "Say it as in \"bed +3 courses\", \"turn shelter\", \"path gravel\".";
}

}  // namespace weatherstruck::files
