package commands

import (
	"slices"

	"github.com/alecthomas/kong"
)

// switchesFirst puts a command's flags that take no value before its other
// words: the parser ends a list of words, such as pieces, at a flag.
func switchesFirst(parser *kong.Kong, args []string) []string {
	for i, a := range args {
		at := slices.IndexFunc(parser.Model.Children, func(c *kong.Node) bool { return c.Name == a })
		if at < 0 {
			continue
		}
		flags := slices.Concat(parser.Model.Flags, parser.Model.Children[at].Flags)
		isSwitch := func(word string) bool {
			return slices.ContainsFunc(flags, func(f *kong.Flag) bool { return f.IsBool() && word == "--"+f.Name })
		}
		out := slices.Clone(args[:i+1])
		var words []string
		for _, word := range args[i+1:] {
			if isSwitch(word) {
				out = append(out, word)
			} else {
				words = append(words, word)
			}
		}
		return append(out, words...)
	}
	return args
}
