package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// Larger counts are run by hand: go test ./cmd/piecebook -run Mutated -mutations 10000.
var mutations = flag.Int("mutations", 60, "how many mutated files are read")

// pieces of text that mean something to some reader.
var tokens = []string{"\"", "'", ",", ";", "\t", "\n", "\r", "\x00", "\xff\xfe", "\u202e", "\x1b[31m", "=", "[", "]",
	"{", "}", "null", "NaN",
	"-", "1e999", "99999999999999999999", "0.1", "2026-13-45", "2026-02-29", "true", "\"\"\"", "example:", "\ufeff", "P1", "A1", "#REF!",
	"\"sha256\": \"", "decimal_comma = true", "[columns.pieces]", "\"2026-01-01\" = 0.5"}

// mutated is data with one to four things changed.
func mutated(r *rand.Rand, data []byte) []byte {
	out := slices.Clone(data)
	for range 1 + r.IntN(4) {
		at, to := r.IntN(len(out)+1), r.IntN(len(out)+1)
		if at > to {
			at, to = to, at
		}
		to = min(to, at+1+r.IntN(40))
		switch r.IntN(6) {
		case 0:
			out = slices.Delete(out, at, to)
		case 1:
			out = out[:at]
		case 2:
			out = slices.Insert(out, at, []byte(tokens[r.IntN(len(tokens))])...)
		case 3:
			out = slices.Insert(out, at, slices.Clone(out[at:to])...)
		case 4:
			if at < len(out) {
				out[at] ^= 1 << r.IntN(8)
			}
		default:
			if at < len(out) {
				out[at] = "0123456789,.\"\n"[r.IntN(14)]
			}
		}
	}
	return out
}

// Goal: whatever stands in a record file, the settings, seen.csv or a closed
// month, nothing panics, the exit status says what came of it, and JSON is
// JSON; an altered closed month is never used. Method: books with a closed
// month, one file mutated at a time.
func TestMutatedFiles(t *testing.T) {
	dir := writing{prepare: [][]string{{"close", "2026-01"}, {"seen", "sold-without-hours", "pieces.csv:2"}}}.smallBooks(t)
	settings := []byte("shop = \"Small\"\ndates = " +
		"\"mdy\"\n[mileage]\n\"2026-01-01\" = 0.725\n" +
		"[columns.pieces]\n\"Paid\" = \"price\"\n")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "settings.toml"), settings, 0o644))
	names := []string{"settings.toml", "seen.csv", "closed/2026-01.json", "closed/2026-01/records/pieces.csv"}
	records, err := filepath.Glob(filepath.Join(dir, "records", "*"))
	require.NoError(t, err)
	for _, n := range records {
		names = append(names, "records/"+filepath.Base(n))
	}
	r := rand.New(rand.NewPCG(uint64(*mutations), 3))
	statuses := map[int]int{}
	for n := range *mutations {
		name := filepath.Join(dir, filepath.FromSlash(names[n%len(names)]))
		whole, err := os.ReadFile(name)
		require.NoError(t, err)
		data := mutated(r, whole)
		require.NoError(t, os.WriteFile(name, data, 0o644))
		tries := [][]string{{"check"}, {"month", "2026-02"}, {"month", "2026-01"}, {"again", "2026-01"}}
		args := append([]string{"--books", dir, "--json"}, tries[(n/len(names))%len(tries)]...)
		var out, said bytes.Buffer
		status := commands.Run(args, terminal.Console{Out: &out, Err: &said, Env: func(string) string { return "" }})
		statuses[status]++
		isTruth(t, status, out.Bytes(), said.String(), names[n%len(names)], args, data)
		closed := strings.HasPrefix(names[n%len(names)], "closed/2026-01.json") && args[len(args)-2] != "check"
		if closed && !bytes.Equal(data, whole) {
			require.Equal(t, cli.ExitFiles, status, "an altered closed month was used: %q", data)
		}
		require.NoError(t, os.WriteFile(name, whole, 0o644))
	}
	t.Logf("exit statuses: %v", statuses)
}

// isTruth asserts that a status is one that there is and fits what was said.
func isTruth(t *testing.T, status int, out []byte, said, name string, args []string, data []byte) {
	t.Helper()
	require.Contains(t, []int{cli.ExitDone, cli.ExitProblems, cli.ExitUse, cli.ExitFiles}, status,
		"%s %v: %s\n%q", name, args, said, data)
	var answer struct {
		Schema   string `json:"schema"`
		Problems []struct {
			Note bool `json:"note"`
		} `json:"problems"`
	}
	if len(out) > 0 {
		require.NoError(t, json.Unmarshal(out, &answer), "%s %v: %s", name, args, out)
	}
	wrong := 0
	for _, p := range answer.Problems {
		if !p.Note {
			wrong++
		}
	}
	switch status {
	case cli.ExitDone:
		require.NotEmpty(t, answer.Schema, "%s %v", name, args)
		require.Zero(t, wrong, "%s %v: done with problems", name, args)
	case cli.ExitProblems:
		require.True(t, wrong > 0 || args[len(args)-2] == "again", "%s %v: problems, and none reported: %s\n%q", name,
			args, out, data)
	default:
		require.NotEmpty(t, said, "%s %v: status %d without a word", name, args, status)
	}
}
