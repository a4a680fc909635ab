// Command warmby plays what a team does between its arrival in the snow and
// the moment everybody is warm, fed and settled.
//
// A scenario file says who is there, what has to be done and what with;
// warmby plays it as a drill and prints who did what from when to when, when
// each milestone was reached and what held it up. "warmby help" lists the
// commands and "warmby help scenario" is the manual of the file format.
//
// # How this package is laid out
//
// A file for each subcommand, named after it: it declares the flags, says
// what it expects and hands the work to warmby/scenarios, warmby/sim and
// warmby/plots. What the subcommands share stands in files named after it:
// the streams (environment.go), finding a scenario (source.go), writing files
// (output.go), mistakes and exit codes (errors.go).
//
// Results go to standard output and everything else to standard error, so
// that a result can be piped. No file is overwritten unasked and none is left
// half written.
package main
