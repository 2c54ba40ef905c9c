package commands

import (
	"slices"

	"github.com/alecthomas/kong"

	"piecebook/cmd/piecebook/questions"
)

// minusSigns gives the numbers after `area` a true minus sign, so that -3 is read
// as a number, and refused as one, and not as a flag.
func minusSigns(args []string) []string {
	if !slices.Contains(args, "area") {
		return args
	}
	out := slices.Clone(args)
	for i, a := range out {
		if len(a) > 1 && a[0] == '-' && (a[1] >= '0' && a[1] <= '9' || a[1] == '.') {
			out[i] = questions.Minus + a[1:]
		}
	}
	return out
}

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
