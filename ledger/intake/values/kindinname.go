package values

import (
	"slices"
	"strings"
)

// KindsIn are the kinds whose words stand in a piece's name, none within a longer
// one: side chair and not chair for "Blue side chairs". last is the one that stands
// last, what follows a comma, a bracket or a hyphen between blanks apart, and a
// number: dresser of "Oak dresser 2 (Ann)"; empty where none does.
func KindsIn(name string, kinds []string) (last string, all []string) {
	words := Words(name)
	head := len(Words(beforeRemark(name)))
	for head > 0 && strings.Trim(words[head-1], "0123456789") == "" {
		head--
	}
	for from := 0; from < len(words); {
		kind, n := longestAt(words[from:], kinds)
		if n == 0 {
			from++
			continue
		}
		from += n
		if !slices.Contains(all, kind) {
			all = append(all, kind)
		}
		if from == head {
			last = kind
		}
	}
	return last, all
}

// kindWordsMost is of how many words a kind can be.
const kindWordsMost = 4

// longestAt is the longest kind that a list of words begins with, in the singular or
// the plural, and of how many words it is there: a night stand is a nightstand. Of a kind
// that is spelled both ways it is the one spelled like this.
func longestAt(words, kinds []string) (kind string, n int) {
	longest, alike := 0, false
	for _, k := range kinds {
		of := Words(k)
		one := strings.Join(of, "")
		for m := 1; m <= min(len(words), kindWordsMost); m++ {
			typed := strings.Join(words[:m], "")
			if one == "" || typed != one && typed != one+"s" && typed != one+"es" {
				continue
			}
			if len(one) > longest || len(one) == longest && !alike && m == len(of) {
				kind, n, longest, alike = k, m, len(one), m == len(of)
			}
		}
	}
	return kind, n
}

// beforeRemark is a name up to a comma, a bracket or a hyphen between blanks.
func beforeRemark(name string) string {
	for _, mark := range []string{",", "(", "[", " - ", " – ", " #"} {
		if before, _, found := strings.Cut(name, mark); found && strings.TrimSpace(before) != "" {
			name = before
		}
	}
	return name
}
