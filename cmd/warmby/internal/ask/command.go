package ask

import (
	"fmt"
	"strings"

	"warmby/scenarios/library"
)

// Command is a command line in the making: the one that asks the same again.
type Command struct{ words []string }

// CommandOf begins a command line; file may be "" for what holds without.
func CommandOf(name, file string) *Command {
	c := &Command{[]string{"warmby", name}}
	if file != "" {
		c.words = append(c.words, ShellWord(file))
	}
	return c
}

// FileWord is FILE as a command line needs it: "" for the shipped demo.
func FileWord(arg string) string {
	if arg == library.Default {
		return ""
	}
	return arg
}

// CautionsCommand is the command line that prints the cautions of a scenario in
// full.
func CautionsCommand(arg string) string { return CommandOf("cautions", FileWord(FileOf(arg))).String() }

// With adds a flag with a value; values that are "" are left out.
func (c *Command) With(flag string, values ...any) *Command {
	for _, v := range values {
		if text := fmt.Sprint(v); text != "" {
			c.words = append(c.words, "--"+flag, ShellWord(text))
		}
	}
	return c
}

// Word adds a word that is no flag.
func (c *Command) Word(word string) *Command {
	c.words = append(c.words, ShellWord(word))
	return c
}

// Flag adds a flag that takes no value.
func (c *Command) Flag(flag string) *Command {
	c.words = append(c.words, "--"+flag)
	return c
}

// String returns the command line as a shell takes it.
func (c *Command) String() string { return strings.Join(c.words, " ") }

// ShellWord quotes a word for a shell when it needs it. The flags in a
// [Source.Arg] follow it as words of their own.
func ShellWord(s string) string {
	if file, flags, ok := strings.Cut(s, flagMark); ok {
		words := ShellWord(file)
		for _, one := range strings.Split(flags, flagMark) {
			flag, value, _ := strings.Cut(one, " ")
			words += " --" + flag + " " + ShellWord(value)
		}
		return words
	}
	if s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./") == "" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
