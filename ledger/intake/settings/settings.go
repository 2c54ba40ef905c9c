package settings

import (
	"fmt"
	"maps"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
	"golang.org/x/text/currency"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// settingsReading reads settings.toml into s; values it cannot take leave
// the default standing.
type settingsReading struct {
	text     string
	set      *templates.Set
	s        ledger.Settings
	problems *fault.List
	keys     []string // all there are
	section  string   // whose lines are being read; blank: none
}

// setting is one key: what it may be, and what takes it.
type setting struct {
	key  string
	take func(r *settingsReading, key string, value any)
}

// settingsKeys are all keys of settings.toml, in the order of RECORDS.md.
// Units stands first, since rates depend on it.
var settingsKeys = []setting{
	{"units", oneOf([]string{"us", "metric"}, func(s *ledger.Settings, v string) { s.Units = v })},
	{"shop", takeShop},
	{"currency", takeCurrency},
	{"dates", oneOf([]string{"mdy", "dmy"}, func(s *ledger.Settings, v string) { s.DayFirst = v == "dmy" })},
	{"decimal_comma", takeDecimalComma},
	{"paper", oneOf([]string{"letter", "a4"}, func(s *ledger.Settings, v string) { s.Paper = v })},
	{"target_hourly", takeMoney(func(s *ledger.Settings, c money.Cents) { s.TargetHourly = c })},
	{"overhead_by", oneOf([]string{"hours", "area", "pieces"}, func(s *ledger.Settings, v string) { s.OverheadBy = v })},
	{"coverage", oneOf([]string{"own", "stated"}, func(s *ledger.Settings, v string) { s.Coverage = v })},
	{"tax_supplies", oneOf([]string{"with the piece", "when used"}, func(s *ledger.Settings, v string) { s.TaxSupplies = v })},
	{"tax_stock", oneOf([]string{"materials", "inventory"}, func(s *ledger.Settings, v string) { s.TaxStock = v })},
	{"receipts_over", takeMoney(func(s *ledger.Settings, c money.Cents) { s.ReceiptsOver = c })},
	{"year", takeYear},
	{"crossed_out", oneOf([]string{"left out", "read"}, func(s *ledger.Settings, v string) { s.ReadStruck = v == "read" })},
	{"kind_from", oneOf([]string{"kind", "piece"}, func(s *ledger.Settings, v string) { s.KindFromName = v == "piece" })},
	{"mileage", takeMileage},
	{"vehicle", takeVehicle},
	{"home", takeHome},
	{"sheets", takeSheets},
	{"columns", takeColumns},
	{"names", takeMeanings(func(s *ledger.Settings) map[string]string { return s.Names },
		`Write [names] and below it a line for each spelling: "oak dreser" = "Oak dresser".`)},
	{"items", takeMeanings(func(s *ledger.Settings) map[string]string { return s.Items },
		`Write [items] and below it a line for what slips say: "120 grit" = "Sandpaper 120".`)},
}

// Keys are all keys of settings.toml, in the order of RECORDS.md.
func Keys() []string {
	var keys []string
	for _, k := range settingsKeys {
		keys = append(keys, k.key)
	}
	return keys
}

// Default are the settings of a shop without settings.toml.
func Default(t *templates.Set) ledger.Settings {
	s := ledger.Settings{Currency: "USD", Units: "us", Paper: "letter", TargetHourly: 2500, OverheadBy: "hours",
		Coverage: "own", TaxSupplies: "with the piece", TaxStock: "materials", ReceiptsOver: 7500,
		YearlyTotals: map[string]*big.Rat{}, Sheets: map[string]string{}, Columns: map[string]map[string]string{},
		Names: map[string]string{}, Items: map[string]string{}}
	s.Mileage = mileage(t, s, nil)
	return s
}

// Read reads settings.toml; without one (nil) all is default.
// sections are the keys and sections the file has.
// pasted are lines that are read as if they stood in it.
func Read(b []byte, t *templates.Set, problems *fault.List, pasted ...Proposal) (s ledger.Settings,
	sections map[string]bool) {
	r := &settingsReading{text: string(b), set: t, s: Default(t), problems: problems, keys: Keys()}
	if b == nil && len(pasted) == 0 {
		return r.s, map[string]bool{}
	}
	r.text, _, _ = sheets.Decode(b)
	var values map[string]any
	if _, err := toml.Decode(r.text, &values); err != nil {
		r.notRead(err)
		return r.s, map[string]bool{}
	}
	values = withLines(values, pasted)
	for _, k := range settingsKeys {
		if v, there := values[k.key]; there {
			k.take(r, k.key, v)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(values)) {
		if !slices.Contains(r.keys, key) {
			r.unknown(key, key, "setting", r.keys)
		}
	}
	// Built-in rates follow the units, whichever of the two came first.
	if _, there := values["mileage"]; !there {
		r.s.Mileage = mileage(t, r.s, nil)
	}
	return r.s, sectionsOf(values)
}

// Place finds the line that begins with a key, for showing it.
func Place(text, key string) fault.Place {
	at := fault.Place{File: sheets.SettingsFile}
	form := regexp.MustCompile(`(?m)^\s*\[?(?:\w+\s*\.\s*)?"?` + regexp.QuoteMeta(key) + `"?\s*[\]=]`)
	if i := form.FindStringIndex(text); i != nil {
		// The match may begin with the line ends before it.
		at.Row = 1 + strings.Count(text[:i[1]], "\n")
	}
	return at.At(key)
}

// placeIn is Place for a line below a section.
func placeIn(text, section, key string) fault.Place {
	head := regexp.MustCompile(`(?m)^\s*\[` + regexp.QuoteMeta(section) + `\]`).FindStringIndex(text)
	if section == "" || head == nil {
		return Place(text, key)
	}
	at := Place(text[head[1]:], key)
	if at.Row == 0 {
		return Place(text, key)
	}
	at.Row += strings.Count(text[:head[1]], "\n")
	return at
}

// place is where the line of a key stands in the section that is being read.
func (r *settingsReading) place(key string) fault.Place { return placeIn(r.text, r.section, key) }

// unknown tells a name that is none of the known ones, with the nearest.
func (r *settingsReading) unknown(key, found, what string, known []string) {
	fix := "Take it out, or type one of " + strings.Join(known, ", ") + "."
	if near := fault.Nearest(found, known); near != "" {
		fix = fmt.Sprintf("The nearest is %s. Type that, or take it out.", near)
	}
	r.problems.Add(fault.Problem{Code: fault.CodeSettingUnknown, Place: r.place(key), Found: found,
		Why: fmt.Sprintf("There is no %s of that name.", what), Fix: fix})
}

// wrong tells a value that a key cannot have.
func (r *settingsReading) wrong(key string, value any, fix string) {
	r.problems.Add(fault.Problem{Code: fault.CodeSettingValue, Place: r.place(key), Found: valueText(value),
		Why: fmt.Sprintf("%s cannot be this, so its usual value was used.", key), Fix: fix})
}

// valueText is a value of settings.toml as a person wrote it; a number with a
// fraction in the fewest digits that tell it from others, which are the ones
// that were typed.
func valueText(value any) string {
	switch v := value.(type) {
	case string:
		return v
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case time.Time:
		return v.Format(time.DateOnly)
	case map[string]any, []any, []map[string]any:
		return ""
	}
	return fmt.Sprint(value)
}

// oneOf takes one of a few words.
func oneOf(words []string, put func(*ledger.Settings, string)) func(*settingsReading, string, any) {
	return func(r *settingsReading, key string, value any) {
		text, isText := value.(string)
		for _, w := range words {
			if isText && values.Fold(w) == values.Fold(text) {
				put(&r.s, w)
				return
			}
		}
		fix := make([]string, len(words))
		for i, w := range words {
			fix[i] = fmt.Sprintf("%s = %q", key, w)
		}
		r.wrong(key, value, "Type "+strings.Join(fix, " or ")+".")
	}
}

func takeShop(r *settingsReading, key string, value any) {
	text, isText := value.(string)
	if !isText {
		r.wrong(key, value, `Type the name in quotation marks: shop = "Oak and Wax".`)
		return
	}
	r.s.Shop = strings.TrimSpace(text)
}

func takeCurrency(r *settingsReading, key string, value any) {
	text, isText := value.(string)
	unit, err := currency.ParseISO(strings.ToUpper(strings.TrimSpace(text)))
	if !isText || err != nil {
		r.wrong(key, value, `Type the three letters of the currency: currency = "USD".`)
		return
	}
	r.s.Currency = unit.String()
}

func takeDecimalComma(r *settingsReading, key string, value any) {
	yes, is := value.(bool)
	if !is {
		r.wrong(key, value, "Type decimal_comma = true or decimal_comma = false.")
		return
	}
	r.s.DecimalComma = yes
}

// takeMoney takes money of 0 or more; a settings file always has a point.
func takeMoney(put func(*ledger.Settings, money.Cents)) func(*settingsReading, string, any) {
	return func(r *settingsReading, key string, value any) {
		cents, refusal := measure.Money(valueText(value), measure.Style{})
		if refusal != nil || cents < 0 {
			r.wrong(key, value, fmt.Sprintf("Type the amount with a point and at most two decimals: %s = 25.00.", key))
			return
		}
		put(&r.s, cents)
	}
}

// takeMileage takes rates of the shop's own, each from its day on.
func takeMileage(r *settingsReading, key string, value any) {
	own := map[calendar.Date]*big.Rat{}
	table, isTable := value.(map[string]any)
	if !isTable {
		r.wrong(key, value, `Write [mileage] and below it a line for each rate: "2026-01-01" = 0.725.`)
	}
	for _, day := range slices.Sorted(maps.Keys(table)) {
		if r.below(day, "mileage", table[day]) {
			continue
		}
		from, err := calendar.Parse(day)
		rate, refusal := measure.Number(valueText(table[day]), measure.Style{})
		if err != nil || refusal != nil || rate.Sign() < 0 {
			r.wrong(day, table[day], `Type the day in quotation marks and money a mile or km: "2026-01-01" = 0.725.`)
			continue
		}
		own[from] = rate
	}
	r.s.Mileage = mileage(r.set, r.s, own)
}

// mileage is the built-in rates, a km's where the shop is metric (a mile is
// 1.609344 km exactly), and the own ones, which win on a day that has both.
// The built-in ones are those of the country whose money the currency is; US
// dollars where no country here has it.
func mileage(t *templates.Set, s ledger.Settings, own map[calendar.Date]*big.Rat) []ledger.MileageRate {
	var rates []ledger.MileageRate
	country, foreign := t.RatesFor(s.Currency), ""
	if country.Currency != s.Currency {
		foreign = country.Currency
	}
	for _, b := range country.Mileage {
		from, err := calendar.Parse(b.From)
		if err != nil || own[from] != nil {
			continue
		}
		rate := new(big.Rat).Set(b.PerMile)
		if s.Metric() {
			rate.Quo(rate, measure.MileInKm())
		}
		rates = append(rates, ledger.MileageRate{From: from, PerMile: rate, Source: b.Source, Foreign: foreign})
	}
	for from, rate := range own {
		rates = append(rates, ledger.MileageRate{From: from, PerMile: rate, Own: true})
	}
	slices.SortFunc(rates, func(a, b ledger.MileageRate) int { return a.From.Compare(b.From) })
	return rates
}

// takeSheets takes the owner's names of sheets and files; "none" is a sheet not to be read.
func takeSheets(r *settingsReading, key string, value any) {
	table, isTable := value.(map[string]any)
	if !isTable {
		r.wrong(key, value, `Write [sheets] and below it a line for each sheet: "Stuff sold" = "sales".`)
	}
	r.section = "sheets"
	first := map[string]string{}
	for _, own := range slices.Sorted(maps.Keys(table)) {
		name := valueText(table[own])
		if other, twice := first[SheetKey(own)]; twice {
			r.wrong(own, table[own], fmt.Sprintf("Take one of the two out: %q and %q name the same sheet.", other, own))
			continue
		}
		first[SheetKey(own)] = own
		if r.below(own, "sheets", table[own]) {
			continue
		}
		if values.Fold(name) == NoTable {
			r.s.Sheets[own] = NoTable
		} else if t := r.table(own, name); t != nil {
			r.s.Sheets[own] = t.Name
		}
	}
	r.section = ""
}

// table finds the table a setting names, telling one there is not.
func (r *settingsReading) table(key, name string) *templates.Table {
	var known []string
	for i := range r.set.Tables {
		t := &r.set.Tables[i]
		if values.Compact(t.Name) == values.Compact(name) {
			return t
		}
		known = append(known, t.Name)
	}
	r.unknown(key, name, "table", known)
	return nil
}

// takeColumns takes the owner's headers, table by table.
func takeColumns(r *settingsReading, key string, value any) {
	tables, isTable := value.(map[string]any)
	if !isTable {
		r.wrong(key, value, `Write [columns.sales] and below it a line for each column: "Amt rec'd" = "price".`)
	}
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		if r.below(name, "columns", "") {
			continue
		}
		t := r.table(name, name)
		if t == nil {
			continue
		}
		headers, isTable := tables[name].(map[string]any)
		if !isTable {
			r.wrong(name, tables[name],
				fmt.Sprintf(`Write [columns.%s] and below it a line for each column: "Amt rec'd" = "price".`, settingsKey(name)))
			continue
		}
		r.section = "columns." + name
		columns, first := map[string]string{}, map[string]string{}
		for _, header := range slices.Sorted(maps.Keys(headers)) {
			if r.below(header, "columns."+name, headers[header]) {
				continue
			}
			if other, twice := first[HeaderKey(header)]; twice {
				r.wrong(header, headers[header], fmt.Sprintf("Take one of the two out: %q and %q name the same column.",
					other, header))
				continue
			}
			first[HeaderKey(header)] = header
			if f := r.column(t, header, valueText(headers[header])); f != "" {
				columns[header] = f
			}
		}
		r.s.Columns[t.Name] = columns
	}
	r.section = ""
}
