package templates

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

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

// MileageRate is a standard mileage rate in US dollars a mile, from a day on.
type MileageRate struct {
	From    string // 2026-01-01
	PerMile *big.Rat
	Source  string
}

// EquipmentLimit is the most one item may cost, with tax, to be written off
// at once, in US cents, from a day of purchase on.
type EquipmentLimit struct {
	From   string // 2016-01-01
	Cents  int64
	Source string
}

// Area is the usual area of a kind in square feet, matched without regard to
// case and outer blanks; nil where none is known.
func (s *Set) Area(kind string) *big.Rat {
	for _, a := range s.Areas {
		if strings.EqualFold(a.Kind, strings.TrimSpace(kind)) {
			return a.SqFt
		}
	}
	return nil
}

// KindsLike are the kinds with a usual area that share a word with a kind: side
// chair, dining chair for chair.
func (s *Set) KindsLike(kind string) []string {
	var out []string
	words := strings.Fields(strings.ToLower(kind))
	for _, a := range s.Areas {
		if slices.ContainsFunc(strings.Fields(a.Kind), func(w string) bool { return slices.Contains(words, w) }) {
			out = append(out, a.Kind)
		}
	}
	return out
}

// AtOnceCents is the limit in force on a day (2026-03-09), in US cents.
func (s *Set) AtOnceCents(day string) int64 {
	var cents int64
	for _, l := range s.Equipment {
		if l.From <= day {
			cents = l.Cents
		}
	}
	return cents
}

// loadData reads the figures.
func (s *Set) loadData() error {
	for _, load := range []func() error{s.loadAreas, s.loadGroups, s.loadMileage, s.loadEquipment, s.loadWords} {
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

func (s *Set) loadMileage() error {
	var raw struct {
		Rate []struct {
			From   string `toml:"from"`
			Cents  string `toml:"cents_per_mile"`
			Source string `toml:"source"`
		} `toml:"rate"`
	}
	if _, err := toml.DecodeFS(files, "data/mileage.toml", &raw); err != nil {
		return err
	}
	read := reader{file: "mileage.toml"}
	for _, r := range raw.Rate {
		cents := read.rat(r.Cents)
		if cents == nil {
			return fmt.Errorf("mileage.toml, %s: no rate", r.From)
		}
		s.Mileage = append(s.Mileage, MileageRate{r.From, cents.Quo(cents, big.NewRat(100, 1)), r.Source})
	}
	slices.SortFunc(s.Mileage, func(a, b MileageRate) int { return strings.Compare(a.From, b.From) })
	return read.err
}

func (s *Set) loadEquipment() error {
	var raw struct {
		Limit []struct {
			From   string `toml:"from"`
			Amount string `toml:"amount"`
			Source string `toml:"source"`
		} `toml:"limit"`
	}
	if _, err := toml.DecodeFS(files, "data/equipment.toml", &raw); err != nil {
		return err
	}
	for _, l := range raw.Limit {
		amount, err := exact(l.Amount)
		if err != nil {
			return fmt.Errorf("equipment.toml, %s: %w", l.From, err)
		}
		cents := amount.Mul(amount, big.NewRat(100, 1))
		if !cents.IsInt() {
			return fmt.Errorf("equipment.toml, %s: not whole cents", l.From)
		}
		s.Equipment = append(s.Equipment, EquipmentLimit{l.From, cents.Num().Int64(), l.Source})
	}
	slices.SortFunc(s.Equipment, func(a, b EquipmentLimit) int { return strings.Compare(a.From, b.From) })
	return nil
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
