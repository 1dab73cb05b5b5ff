#pragma once
// Dictated text cut into pieces that say one thing each. For this floor only.
#include <string>
#include <string_view>
#include <vector>

namespace weatherstruck::works {

/// Pieces by line, semicolon, full stop, and before a word that surely opens one. What follows "note" is kept
/// whole to the end of its line or to another note or extra; what follows "extra", to the next semicolon.
[[nodiscard]] std::vector<std::string> split_pieces(std::string_view text);

/// A piece cut again before what may open one ("..., 3 courses of the bed"): to be tried where the piece as a
/// whole is not understood. The piece itself where there is nothing of the kind.
[[nodiscard]] std::vector<std::string> split_further(std::string_view piece);

/// Whether a piece says what fell ("rained at two"), or that he stood down.
[[nodiscard]] bool tells_what_fell(std::string_view piece);
[[nodiscard]] bool tells_of_standing_down(std::string_view piece);

}  // namespace weatherstruck::works
