package measure

import (
	"math/big"
	"strings"
)

// Kind is what a unit measures.
type Kind string

// The kinds of unit. Each unit of count is a kind of its own: a sheet is no disc.
const (
	Volume Kind = "volume"
	Mass   Kind = "weight"
	Length Kind = "length"
	Count  Kind = "count"
)

// Unit is one unit of amount. Base is how many of its kind's base units it
// holds: millilitres, grams, centimetres, or one of itself.
type Unit struct {
	Name string // in the singular, as printed: fl oz, qt, sheet
	Kind Kind
	Base *big.Rat
}

// Same says that amounts in the two units convert into each other.
func (u Unit) Same(v Unit) bool {
	return u.Kind == v.Kind && (u.Kind != Count || u.Name == v.Name)
}

// In is how many of v one u is. The two must be Same.
func (u Unit) In(v Unit) *big.Rat { return new(big.Rat).Quo(u.Base, v.Base) }

// Plural is the unit's name for an amount: 3 sheets, 1 sheet, 2 qt.
func (u Unit) Plural(n *big.Rat) string {
	one := big.NewRat(1, 1)
	if u.Kind != Count || u.Name == "each" || n.Cmp(one) == 0 {
		return u.Name
	}
	return u.Name + "s"
}

// units are all units with what people write for them. Exact values: NIST
// Handbook 44, Appendix C; the gallon is 231 cubic inches of 16.387064 ml, so
// a fluid ounce is 29.5735295625 ml, and the pound is 453.59237 g. The cup,
// pint and fluid ounce are the US ones.
var units = []struct {
	name   string
	kind   Kind
	base   string
	spelt  string // other spellings, separated by commas; plurals are found without
	plural string
}{
	{"fl oz", Volume, "29.5735295625", "floz,fluid ounce,fluid oz,fl ounce,oz fl", ""},
	{"cup", Volume, "236.5882365", "", ""},
	{"pt", Volume, "473.176473", "pint", ""},
	{"qt", Volume, "946.352946", "quart", ""},
	{"gal", Volume, "3785.411784", "gallon", ""},
	{"ml", Volume, "1", "millilitre,milliliter,cc", ""},
	{"l", Volume, "1000", "litre,liter,ltr", ""},
	{"oz", Mass, "28.349523125", "ounce", ""},
	{"lb", Mass, "453.59237", "pound", ""},
	{"g", Mass, "1", "gram,gramme,gm", ""},
	{"kg", Mass, "1000", "kilogram,kilogramme,kilo", ""},
	{"in", Length, "2.54", "inch,\",″,”", "inches"},
	{"ft", Length, "30.48", "foot,',′,’", "feet"},
	{"yd", Length, "91.44", "yard", ""},
	{"cm", Length, "1", "centimetre,centimeter", ""},
	{"m", Length, "100", "metre,meter", ""},
	{"each", Count, "1", "ea,piece,pc,unit,stk,stck,stück,stücke", ""},
	{"sheet", Count, "1", "blatt,blätter", ""},
	{"disc", Count, "1", "disk", ""},
	{"pad", Count, "1", "", ""},
	{"roll", Count, "1", "rolle,rollen", ""},
	{"pair", Count, "1", "pr,paar,paare", ""},
	{"can", Count, "1", "dose,dosen", ""},
	{"tube", Count, "1", "", ""},
	{"bag", Count, "1", "", ""},
}

// spellings is every way a unit is written, plurals too.
var spellings = func() map[string]Unit {
	all := map[string]Unit{}
	for _, u := range units {
		base, _ := new(big.Rat).SetString(u.base)
		unit := Unit{u.name, u.kind, base}
		for _, s := range append(strings.Split(u.spelt, ","), u.name) {
			if s != "" {
				all[s], all[s+"s"] = unit, unit
			}
		}
		if u.plural != "" {
			all[u.plural] = unit
		}
	}
	return all
}()

// UnitNames are the units as printed, in the order of the contract.
func UnitNames() []string {
	names := make([]string, len(units))
	for i, u := range units {
		names[i] = u.name
	}
	return names
}

// FindUnit is the unit a person wrote, without regard to case, full stops and
// spacing: `Fl. Oz.`, `quarts`.
func FindUnit(text string) (Unit, bool) {
	text = strings.ToLower(strings.ReplaceAll(text, ".", " "))
	text = strings.Join(strings.Fields(text), " ")
	u, ok := spellings[text]
	return u, ok
}

// SqFtInSqM is a square foot in square metres: 0.09290304, exactly.
func SqFtInSqM() *big.Rat { return big.NewRat(9290304, 100000000) }

// MileInKm is a mile in kilometres: 1.609344, exactly.
func MileInKm() *big.Rat { return big.NewRat(1609344, 1000000) }
