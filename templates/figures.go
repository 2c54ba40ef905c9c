package templates

import (
	"maps"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"
)

// TypicalArea is the usual finish area of a kind of furniture, in square feet.
type TypicalArea struct {
	Kind string
	SqFt *big.Rat
}

// SupplyGroup is what is usual for a group of supplies: whether it stays on
// the piece, and what one unit covers once over. A nil figure is 'none'.
type SupplyGroup struct {
	Name        string   `toml:"name"`
	Stays       bool     `toml:"stays"`
	SqFtPerFlOz *big.Rat `toml:"sq_ft_per_fl_oz"`
	SqFtPerOz   *big.Rat `toml:"sq_ft_per_oz"`   // ounce of weight
	SqFtPerUnit *big.Rat `toml:"sq_ft_per_unit"` // each, sheet, disc, pad
}

// PerUnit is what one unit does of a supply that is counted in units and
// shared by hours or by pieces.
type PerUnit struct {
	Hours  *big.Rat `toml:"hours_per_unit"`
	Pieces *big.Rat `toml:"pieces_per_unit"`
}

// Area is the usual area of a kind in square feet, matched without regard to
// case and outer blanks; nil where none is known.
func (s *Set) Area(kind string) *big.Rat {
	for _, a := range s.Areas {
		if KindKey(a.Kind) == KindKey(kind) {
			return a.SqFt
		}
	}
	return nil
}

// KindKey is what kinds are compared by, their letters and digits: Nightstand,
// night stand and night-stand are one kind.
func KindKey(kind string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, kind)
}

// KindsLike are those of some kinds that share a word with one: side chair,
// dining chair for chair.
func KindsLike(kind string, among []string) []string {
	split := func(k string) []string {
		words := strings.FieldsFunc(strings.ToLower(k), func(r rune) bool { return !unicode.IsLetter(r) })
		for i := range words {
			words[i] = strings.TrimSuffix(words[i], "s")
		}
		return words
	}
	var out []string
	words := split(kind)
	for _, k := range among {
		if slices.ContainsFunc(split(k), func(w string) bool { return slices.Contains(words, w) }) {
			out = append(out, k)
		}
	}
	return out
}

// loadData reads the figures.
func (s *Set) loadData() error {
	for _, load := range []func() error{s.loadAreas, s.loadGroups, s.loadRates, s.loadWords} {
		if err := load(); err != nil {
			return err
		}
	}
	return nil
}

func (s *Set) loadAreas() error {
	var raw struct {
		Kinds []string            `toml:"kinds"`
		SqFt  map[string]*big.Rat `toml:"sq_ft"`
	}
	_, err := toml.DecodeFS(files, "data/areas.toml", &raw)
	known := slices.Sorted(maps.Keys(raw.SqFt))
	s.Kinds = append(raw.Kinds, known...)
	for _, kind := range known {
		s.Areas = append(s.Areas, TypicalArea{kind, raw.SqFt[kind]})
	}
	return err
}

func (s *Set) loadGroups() error {
	raw := struct {
		*PerUnit
		Group *[]SupplyGroup `toml:"group"`
	}{&s.PerUnit, &s.Groups}
	_, err := toml.DecodeFS(files, "data/groups.toml", &raw)
	return err
}
