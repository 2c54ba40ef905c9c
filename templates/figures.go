package templates

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"github.com/BurntSushi/toml"
)

// TypicalArea is the usual finish area of a kind of furniture, in square feet.
type TypicalArea struct {
	Kind   string
	SqFt   *big.Rat
	Source string
}

// SupplyGroup is what is usual for a group of supplies: whether it stays on
// the piece, and what one unit covers once over. A nil figure is 'none'.
type SupplyGroup struct {
	Name        string
	Stays       bool
	SqFtPerFlOz *big.Rat
	SqFtPerOz   *big.Rat // ounce of weight
	SqFtPerUnit *big.Rat // each, sheet, disc, pad
	Source      string
}

// PerUnit is what one unit does of a supply that is counted in units and
// shared by hours or by pieces.
type PerUnit struct {
	Hours  *big.Rat
	Pieces *big.Rat
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
	var out []string
	words := strings.Fields(strings.ToLower(kind))
	for _, k := range among {
		if slices.ContainsFunc(strings.Fields(strings.ToLower(k)), func(w string) bool { return slices.Contains(words, w) }) {
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
		Source string            `toml:"source"`
		Kinds  []string          `toml:"kinds"`
		SqFt   map[string]string `toml:"sq_ft"`
	}
	if _, err := toml.DecodeFS(files, "data/areas.toml", &raw); err != nil {
		return err
	}
	s.Kinds = append(raw.Kinds, slices.Sorted(maps.Keys(raw.SqFt))...)
	for kind, text := range raw.SqFt {
		area, err := exact(text)
		if err != nil {
			return fmt.Errorf("areas.toml, %s: %w", kind, err)
		}
		s.Areas = append(s.Areas, TypicalArea{kind, area, raw.Source})
	}
	slices.SortFunc(s.Areas, func(a, b TypicalArea) int { return strings.Compare(a.Kind, b.Kind) })
	return nil
}

func (s *Set) loadGroups() error {
	var raw struct {
		Source        string `toml:"source"`
		HoursPerUnit  string `toml:"hours_per_unit"`
		PiecesPerUnit string `toml:"pieces_per_unit"`
		Group         []struct {
			Name  string `toml:"name"`
			Stays bool   `toml:"stays"`
			FlOz  string `toml:"sq_ft_per_fl_oz"`
			Oz    string `toml:"sq_ft_per_oz"`
			Unit  string `toml:"sq_ft_per_unit"`
		} `toml:"group"`
	}
	if _, err := toml.DecodeFS(files, "data/groups.toml", &raw); err != nil {
		return err
	}
	read := reader{file: "groups.toml"}
	s.PerUnit = PerUnit{read.rat(raw.HoursPerUnit), read.rat(raw.PiecesPerUnit)}
	for _, g := range raw.Group {
		s.Groups = append(s.Groups, SupplyGroup{Name: g.Name, Stays: g.Stays, Source: raw.Source,
			SqFtPerFlOz: read.rat(g.FlOz), SqFtPerOz: read.rat(g.Oz), SqFtPerUnit: read.rat(g.Unit)})
	}
	return read.err
}

// reader turns texts into exact numbers and keeps the first mistake.
type reader struct {
	file string
	err  error
}

// rat is the exact number, nil for an empty text.
func (r *reader) rat(text string) *big.Rat {
	if text == "" {
		return nil
	}
	x, err := exact(text)
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("%s: %w", r.file, err)
	}
	return x
}

// exact reads a plain decimal.
func exact(text string) (*big.Rat, error) {
	x, ok := new(big.Rat).SetString(text)
	if !ok || strings.ContainsAny(text, "eE/_") {
		return nil, fmt.Errorf("%q is not a plain decimal", text)
	}
	return x, nil
}
