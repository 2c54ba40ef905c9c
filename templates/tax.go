package templates

import (
	"cmp"
	"fmt"
	"io/fs"
	"regexp"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// Term is a named amount with its sign; in the files a minus stands before one
// that is taken away.
type Term struct {
	Name string
	Less bool // taken away
}

// UnmarshalText reads a term of the files.
func (t *Term) UnmarshalText(text []byte) error {
	t.Name, t.Less = strings.CutPrefix(string(text), "-")
	return nil
}

// TaxLine is one line of a form: what it takes from the books and what other
// lines it adds up.
type TaxLine struct {
	Line   string `toml:"line"`  // as the form numbers it: 27b
	From   int    `toml:"from"`  // the tax years it holds for; 0: since ever
	To     int    `toml:"to"`    // 0: until today
	Part   string `toml:"part"`  // of the form: III
	Label  string `toml:"label"` // in our own words
	Takes  []Term `toml:"takes"` // amounts of the books
	Adds   []Term `toml:"adds"`  // other lines
	Source string `toml:"source"`
	// SourceLine is the line that the source itself speaks of; blank: none.
	SourceLine string `toml:"source_line"`
	Asks       []Ask  `toml:"ask"`
}

// Cited is the source with its line.
func (l *TaxLine) Cited() string {
	if l.SourceLine == "" {
		return l.Source
	}
	return l.Source + ", line " + l.SourceLine
}

// Ask is a question for the preparer about a line, which stands only where
// there is an amount that it is about.
type Ask struct {
	Of    []string `toml:"of"` // amounts that the line takes, or what a year alone knows of them
	Words string   `toml:"words"`
}

// TaxLines is the lines of one tax year's form, in the form's order.
type TaxLines struct {
	Country string
	Form    string
	Year    int    // whose lines they are
	Check   string // what of the year's form was not seen; blank: nothing known
	Outside string // which lines take nothing from these records
	Source  string
	Money   FormMoney
	Words   FormWords
	Holds   Holds
	Lines   []TaxLine
}

// FormMoney is the currency that the lines, limits and rates are in.
type FormMoney struct {
	Code string `toml:"code"` // USD
	Name string `toml:"name"` // US dollars
}

// FormWords is what pages say of one country's form alone. {unit} stands for
// the shop's unit of distance.
type FormWords struct {
	Net     string       `toml:"net"`     // what the net figure is before: use of the home
	Numbers string       `toml:"numbers"` // where the line numbers are from
	Vehicle VehicleWords `toml:"vehicle"`
}

// VehicleWords is what the form asks of the vehicle; a blank one is not asked.
// OtherHeading stands where another form takes the place of these lines.
type VehicleWords struct {
	Heading      string       `toml:"heading"`
	OtherHeading string       `toml:"other_heading"`
	OtherNote    string       `toml:"other_note"`
	Service      VehicleLabel `toml:"in_service"`
	Shop         VehicleLabel `toml:"business"`
	Other        VehicleLabel `toml:"other"`
	Private      VehicleLabel `toml:"private"`
	Note         string       `toml:"note"`
}

// VehicleLabel is what is asked, with the lines it is asked on.
type VehicleLabel struct {
	Line  string `toml:"line"`
	Plain string `toml:"plain"`
}

// Holds names the lines of the form that pages tell first. All others are
// found by what they take.
type Holds struct {
	Profit   string `toml:"profit"`
	Cost     string `toml:"cost"`     // of what was sold
	Expenses string `toml:"expenses"` // all of them
	Gross    string `toml:"gross"`    // profit before expenses; blank: the form has none
}

// Under is a line and all that it adds up in the end, in the form's order.
func (t *TaxLines) Under(line string) []string {
	in := map[string]bool{}
	var walk func(number string)
	walk = func(number string) {
		l := t.Line(number)
		if l == nil || in[l.Line] {
			return
		}
		in[l.Line] = true
		for _, a := range l.Adds {
			walk(a.Name)
		}
	}
	walk(line)
	var out []string
	for _, l := range t.Lines {
		if in[l.Line] {
			out = append(out, l.Line)
		}
	}
	return out
}

// Line is the line of that number; nil where the year has none.
func (t *TaxLines) Line(number string) *TaxLine {
	for i := range t.Lines {
		if strings.EqualFold(t.Lines[i].Line, number) {
			return &t.Lines[i]
		}
	}
	return nil
}

// Keep is how long papers are kept.
type Keep struct {
	What   string `toml:"what"`
	Long   string `toml:"long"`
	Source string `toml:"source"`
}

// Treatment is one that a key of settings.toml chooses.
type Treatment struct {
	Key    string `toml:"key"`
	Value  string `toml:"value"`
	Words  string `toml:"words"`
	Source string `toml:"source"`
}

// Rule is something that the law of the country says, by a key that the
// program knows: What and Source for the list of sources, Words for where it
// is shown. A country without the rule says nothing of it.
type Rule struct {
	Key    string `toml:"key"`
	What   string `toml:"what"`
	Source string `toml:"source"`
	Words  string `toml:"words"`
}

// The keys of rules.
const (
	RuleAtOnce   = "equipment at once"
	RuleLog      = "mileage log"
	RuleSalesTax = "sales tax"
	RuleChannels = "channel reports"
	RuleAbove    = "equipment above the limit"
	RuleOwnGoods = "household goods"
	RuleToolSold = "tool sold"
	RuleForm     = "form for equipment"
	RuleMethod   = "change of method"
)

// Words are words of the files under a name of their own.
type Words struct {
	Words string `toml:"words"`
}

// Tax is everything of one country's tax year. What has tags is in records-XX.toml.
type Tax struct {
	Rules        []Rule       `toml:"rule"`
	Depreciation Depreciation `toml:"-"`
	Keep         []Keep       `toml:"keep"`
	Treatments   []Treatment  `toml:"choice"`
	Payees       Payees       `toml:"payees"`
	Reports      Reports      `toml:"reports"`
	Home         Home         `toml:"home"`
	// Sources says once for all what rules and line numbers were taken from, and to check them.
	Sources Words `toml:"sources"`
	lines   linesFile
	texts   taxTexts
}

// Of is the tables with the words of their sources for a tax year: one of
// another year is said to be older or later.
func (t *Tax) Of(year int) (*Tax, error) { return t.texts.read(year) }

type linesFile struct {
	Country   string `toml:"country"`
	Form      string `toml:"form"`
	FirstYear int    `toml:"first_year"`
	LastYear  int    `toml:"last_year"`
	Source    string `toml:"source"`
	Year      []struct {
		Year  int    `toml:"year"`
		Check string `toml:"check"`
	} `toml:"year"`
	Money   FormMoney `toml:"money"`
	Words   FormWords `toml:"words"`
	Holds   Holds     `toml:"holds"`
	Outside Words     `toml:"outside"`
	Line    []TaxLine `toml:"line"`
}

// Treatment is the words on a key's value; the zero one where there are none.
func (t *Tax) Treatment(key, value string) Treatment {
	for _, c := range t.Treatments {
		if c.Key == key && c.Value == value {
			return c
		}
	}
	return Treatment{}
}

// LastYear is the last year that the form's lines are known for.
func (t *Tax) LastYear() int { return t.lines.LastYear }

// Lines is the lines of a tax year. A year the table does not reach has those
// of the nearest year, and Check says so.
func (t *Tax) Lines(year int) TaxLines {
	f := t.lines
	of := min(max(year, f.FirstYear), f.LastYear)
	out := TaxLines{Country: f.Country, Form: f.Form, Year: of, Outside: f.Outside.Words, Source: f.Source,
		Money: f.Money, Words: f.Words, Holds: f.Holds}
	for _, y := range f.Year {
		if y.Year == of {
			out.Check = y.Check
		}
	}
	if of != year {
		out.Check = fmt.Sprintf("No lines are known for %d; those of %d are used. Compare each line number with "+
			"the printed form.", year, of)
	}
	for _, l := range f.Line {
		if l.From <= of && (l.To == 0 || of <= l.To) {
			out.Lines = append(out.Lines, l)
		}
	}
	return out
}

// Rule is what the country's law says under a key; the zero one where there is
// none.
func (t *Tax) Rule(key string) Rule {
	for _, r := range t.Rules {
		if r.Key == key {
			return r
		}
	}
	return Rule{}
}

// ReadTax reads a country's tax tables out of a folder: lines-XX.toml,
// depreciation-XX.toml and records-XX.toml. In them {2024} is the year of a
// source and {2023 to 2025} its years, which Of compares with the tax year.
func ReadTax(data fs.FS, country string) (*Tax, error) {
	texts := taxTexts{}
	for _, name := range []string{"lines", "depreciation", "records"} {
		text, err := fs.ReadFile(data, name+"-"+strings.ToLower(country)+".toml")
		if err != nil {
			return nil, err
		}
		texts[name] = string(text)
	}
	return texts.read(0)
}

// taxTexts are a country's files as they stand, by what they hold. Without the
// records' rules the lines ask nothing either.
type taxTexts map[string]string

// sourceYear is the year of a source in the files, or its first and last.
var sourceYear = regexp.MustCompile(`\{(\d{4})(?: to (\d{4}))?\}`)

// read reads the files for a tax year: where a source is of another year, its
// words say so. Year 0: of none.
func (f taxTexts) read(year int) (*Tax, error) {
	t := &Tax{texts: f}
	text := func(name string) string {
		return sourceYear.ReplaceAllStringFunc(f[name], func(found string) string {
			of := strings.Trim(found, "{}")
			years := sourceYear.FindStringSubmatch(found)
			first, _ := strconv.Atoi(years[1])
			last, _ := strconv.Atoi(cmp.Or(years[2], years[1]))
			switch {
			case year == 0 || first <= year && year <= last:
				return of
			case last < year:
				return of + " (older than this tax year's)"
			}
			return of + " (later than this tax year's)"
		})
	}
	for _, file := range []struct {
		name string
		into any
	}{{"lines", &t.lines}, {"depreciation", &t.Depreciation}, {"records", t}} {
		if _, err := toml.Decode(text(file.name), file.into); err != nil {
			return nil, fmt.Errorf("the tables of %s: %w", file.name, err)
		}
	}
	if f["records"] == "" {
		t.lines.Words, t.lines.Year = FormWords{}, nil
		for i := range t.lines.Line {
			t.lines.Line[i].Asks = nil
		}
	}
	return t, nil
}
