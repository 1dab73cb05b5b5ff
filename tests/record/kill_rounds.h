#pragma once
// Starts the program that appends, kills it at some moment, and looks at what is left; many times over one
// file.
namespace weatherstruck::record {

/// Fails the test where an acknowledged entry is lost, one is half there, or the file is not sound.
/// @param seed of the moments; the machine adds its own
void kill_and_look(int rounds, unsigned seed);

/// Fails the test where a file that a running program has open is taken for one left open, or one that a
/// killed program had open is not.
void look_while_it_runs_and_after();

/// The same with a program that brings a packed job in and packs it away: a record has the whole job or
/// nothing of it, and a file under its name is whole.
void kill_packing_and_look(int rounds, unsigned seed);

}  // namespace weatherstruck::record
