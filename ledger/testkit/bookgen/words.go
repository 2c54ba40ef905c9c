package bookgen

import (
	"strings"
	"testing/fstest"
)

// InWords is a books folder in words: a table's name, then its rows, with a
// blank line between tables. A table named settings is settings.toml.
func InWords(words string) fstest.MapFS {
	out := fstest.MapFS{}
	for block := range strings.SplitSeq(strings.TrimSpace(words), "\n\n") {
		name, rows, _ := strings.Cut(strings.TrimSpace(block), "\n")
		path := "records/" + name + ".csv"
		if name == "settings" {
			path = "settings.toml"
		}
		out[path] = &fstest.MapFile{Data: []byte(rows + "\n")}
	}
	return out
}
