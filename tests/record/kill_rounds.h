#pragma once
// Starts the program that appends, kills it at some moment, and looks at what is left; many times over one
// file.
namespace weatherstruck::record {

/// Fails the test where an acknowledged entry is lost, one is half there, or the file is not sound.
/// @param seed of the moments; the machine adds its own
void kill_and_look(int rounds, unsigned seed);

}  // namespace weatherstruck::record
