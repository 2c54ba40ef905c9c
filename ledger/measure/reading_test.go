package measure_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"piecebook/ledger/fault"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

var (
	point = measure.Style{Currency: "USD"}
	comma = measure.Style{DecimalComma: true, Currency: "EUR"}
)

func TestNumber(t *testing.T) {
	for text, want := range map[string]string{"7.5": "15/2", "7 1/2": "15/2", "7½": "15/2", "7-1/2": "15/2", "½": "1/2",
		"3/4": "3/4",
		"-2":  "-2", "−2": "-2", "1,250": "1250", ".5": "1/2", " 12 ": "12", "0": "0", "-1 1/2": "-3/2"} {
		x, refusal := measure.Number(text, point)
		require.Nil(t, refusal, text)
		require.Zero(t, x.Cmp(rat(t, want)), text)
	}
	for text, want := range map[string]string{"7,5": "15/2", "1.250": "1250", "1.250,75": "5003/4", "1 250": "1250"} {
		x, refusal := measure.Number(text, comma)
		require.Nil(t, refusal, text)
		require.Zero(t, x.Cmp(rat(t, want)), text)
	}
}

func TestNumberRefusals(t *testing.T) {
	for text, code := range map[string]fault.Code{"": fault.CodeNumberNotRead, "a": fault.CodeNumberNotRead,
		"7 1/2x": fault.CodeNumberNotRead,
		"NaN":    fault.CodeNumberNotFinite, "-inf": fault.CodeNumberNotFinite, "∞": fault.CodeNumberNotFinite,
		"1e9": fault.CodeNumberExponent,
		"7,5": fault.CodeDecimalMark, "1.-5": fault.CodeNumberNotRead, "--1": fault.CodeNumberNotRead,
		"1/0":    fault.CodeNumberNotRead,
		"1,25,0": fault.CodeNumberNotRead, "5%": fault.CodeNumberNotRead, "1_000": fault.CodeNumberNotRead,
		"0x1F": fault.CodeNumberNotRead,
		".":    fault.CodeNumberNotRead, "-": fault.CodeNumberNotRead, "1234567890123456": fault.CodeNumberNotRead} {
		_, refusal := measure.Number(text, point)
		require.NotNil(t, refusal, text)
		require.Equal(t, code, refusal.Code, text)
	}
	_, refusal := measure.Number("7.5", comma)
	require.Equal(t, fault.CodeDecimalMark, refusal.Code)
}

func TestMoney(t *testing.T) {
	for text, want := range map[string]money.Cents{"1234.5": 123450, "$1,234.50": 123450, "(12.00)": -1200,
		"-12.00": -1200, "$-12.00": -1200,
		"-$12": -1200, "($1,012.00)": -101200, "0": 0, "12.5000": 1250, ".5": 50, "USD 12": 1200, "12 usd": 1200,
		// Payment apps export what came in and went out so (common practice, no source).
		"+ $100.00": 10000, "- $12.00": -1200, "+$1,234.50": 123450, "$+5": 500, "+ 7.50": 750, "+ £3": 300,
		"£3.10": 310, "−4": -400} {
		c, refusal := measure.Money(text, point)
		require.Nil(t, refusal, text)
		require.Equal(t, want, c, text)
	}
	for text, want := range map[string]money.Cents{"1.234,50": 123450, "1234,5": 123450, "€ 12": 1200, "12,50 €": 1250,
		"(12,00)": -1200, "1.234": 123400} {
		c, refusal := measure.Money(text, comma)
		require.Nil(t, refusal, text)
		require.Equal(t, want, c, text)
	}
}

func TestMoneyRefusals(t *testing.T) {
	for text, code := range map[string]fault.Code{"12.345": fault.CodeMoneyDecimals, "1e9": fault.CodeNumberExponent,
		"about 5": fault.CodeMoneyNotRead,
		"12,50":   fault.CodeDecimalMark, "12,50 €": fault.CodeDecimalMark, "€ 1.234,50": fault.CodeDecimalMark,
		"(-12)": fault.CodeMoneyNotRead, "--12": fault.CodeMoneyNotRead,
		"+-12": fault.CodeMoneyNotRead, "+ tax": fault.CodeMoneyNotRead, "12 + 5": fault.CodeMoneyNotRead,
		"95 + tax": fault.CodeMoneyNotRead, "+": fault.CodeMoneyNotRead,
		"(12": fault.CodeMoneyNotRead,
		"NaN": fault.CodeNumberNotFinite, "12345678901234": fault.CodeMoneyTooLarge, "1 1/2": fault.CodeMoneyNotRead,
		"": fault.CodeMoneyNotRead} {
		_, refusal := measure.Money(text, point)
		require.NotNil(t, refusal, text)
		require.Equal(t, code, refusal.Code, text)
	}
	_, refusal := measure.Money("12.50", comma)
	require.Equal(t, fault.CodeDecimalMark, refusal.Code)
}

// Goal: what is printed is read back as it was. Method: random cents, printed
// plainly and with thousands.
func TestMoneyReadsWhatIsPrinted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := money.Cents(rapid.Int64Range(-999_999_999_999_999, 999_999_999_999_999).Draw(t, "cents"))
		for _, text := range []string{cents.String(), cents.Grouped(), "$" + cents.Grouped()} {
			back, refusal := measure.Money(text, point)
			if refusal != nil || back != cents {
				t.Fatalf("%s: %v %v", text, back, refusal)
			}
		}
	})
}

func TestHours(t *testing.T) {
	for text, want := range map[string]string{"2.5": "5/2", "2:30": "5/2", "2h 30m": "5/2", "2h30": "5/2",
		"150 min": "5/2", "2 1/2": "5/2",
		"2 hours 30 minutes": "5/2", "0:45": "3/4", "45m": "3/4", "3 h": "3", "2.5 hrs": "5/2", "2:75": "", "two": "",
		"-1": "", "1e2": ""} {
		x, refusal := measure.ReadHours(text, point)
		if want == "" {
			require.NotNil(t, refusal, text)
			continue
		}
		require.Nil(t, refusal, text)
		require.Zero(t, x.Cmp(rat(t, want)), text)
	}
}

func TestLength(t *testing.T) {
	for _, c := range []struct {
		text   string
		metric bool
		want   string
	}{{"36", false, "36"}, {"36\"", false, "36"}, {"3' 6\"", false, "42"}, {"3'6 1/2\"", false, "85/2"},
		{"3 ft", false, "36"},
		{"3 ft 6 in", false, "42"}, {"3′ 6″", false, "42"}, {"1 yd", false, "36"}, {"2.54 cm", false, "1"}, {"90", true, "90"},
		{"1.2 m", true, "120"}, {"10 in", true, "25.4"}, {"7½\"", false, "15/2"}, {"3'", false, "36"},
		{"3' 6", false, "42"}} {
		x, refusal := measure.ReadLength(c.text, point, c.metric)
		require.Nil(t, refusal, c.text)
		require.Zero(t, x.Cmp(rat(t, c.want)), "%s: %s", c.text, x)
	}
	for _, text := range []string{"wide", "3 qt", "3' 6'", "3' x", "'", "3 ft 6 ft", "NaN", "1e3"} {
		_, refusal := measure.ReadLength(text, point, false)
		require.NotNil(t, refusal, text)
	}
}

func TestAmountInContainers(t *testing.T) {
	quart, _ := measure.FindUnit("qt")
	for text, want := range map[string]string{"8 fl oz": "1/4", "1/2 qt": "1/2", "250 ml": "250/946.352946", "0.5": "1/2",
		"1 pint": "1/2", "1½ cups": "3/8"} {
		a, refusal := measure.ReadAmount(text, point)
		require.Nil(t, refusal, text)
		x, refusal := a.InContainers(rat(t, "1"), quart)
		require.Nil(t, refusal, text)
		want := want
		if want == "250/946.352946" {
			want = "250000000/946352946"
		}
		require.Zero(t, x.Cmp(rat(t, want)), text)
	}
	a, _ := measure.ReadAmount("3 sheets", point)
	_, refusal := a.InContainers(rat(t, "1"), quart)
	require.Equal(t, "An amount in sheets cannot be taken from a container that is counted in qt. Type the amount in qt, "+
		"or a bare number of containers.", refusal.Error())
	_, refusal = measure.ReadAmount("3 qurts", point)
	require.Equal(t, fault.CodeUnitUnknown, refusal.Code)
	require.Contains(t, refusal.Fix, "quarts")
}

func ExampleReadAmount() {
	amount, _ := measure.ReadAmount("1½ pints", measure.Style{})
	quart, _ := measure.FindUnit("quart")
	containers, _ := amount.InContainers(rat2(2), quart)
	fmt.Println(amount.Value, amount.Unit.Name, "is", containers, "of a 2 qt container")
	// Output: 3/2 pt is 3/8 of a 2 qt container
}

// Source of the conversions: NIST Handbook 44, Appendix C (1 sq ft is
// 0.09290304 sq m, 1 mile is 1.609344 km, both exactly).
func TestAreasAndDistancesWithTheirUnit(t *testing.T) {
	for text, want := range map[string]string{"40": "40", "40 sqft": "40", "12 sq ft": "12", "12 sq. ft.": "12",
		"12½ ft²": "25/2", "1,200 square feet": "1200"} {
		x, refusal := measure.ReadArea(text, point, false)
		require.Nil(t, refusal, text)
		require.Zero(t, x.Cmp(rat(t, want)), text)
	}
	for text, fix := range map[string]string{"3.5 m2": "Type 37.67, which is the same.",
		"432 sq in": "Type 3, which is the same.", "2 sq yd": "Type 18, which is the same."} {
		_, refusal := measure.ReadArea(text, point, false)
		require.NotNil(t, refusal, text)
		require.Equal(t, fault.CodeUnitNotShops, refusal.Code)
		require.Equal(t, fix, refusal.Fix, text)
	}
	x, refusal := measure.ReadArea("3,5 m²", comma, true)
	require.Nil(t, refusal)
	require.Zero(t, x.Cmp(rat(t, "7/2")))
	_, refusal = measure.ReadArea("40 sq ft", comma, true)
	require.Equal(t, "Type 3,72, which is the same.", refusal.Fix)
	_, refusal = measure.ReadArea("big", point, false)
	require.Equal(t, fault.CodeNumberNotRead, refusal.Code)
	x, refusal = measure.ReadDistance("12.4 mi", point, false)
	require.Nil(t, refusal)
	require.Zero(t, x.Cmp(rat(t, "62/5")))
	_, refusal = measure.ReadDistance("20 km", point, false)
	require.Equal(t, "Type 12.43, which is the same.", refusal.Fix)
}

// What is typed instead of a number is reported for what it is.
func TestRemarksSayWhatToType(t *testing.T) {
	for text, want := range map[string]string{
		"20 + tax": "Type 20 here", "~20": "such as 20", "about 50": "such as 50", "20?": "such as 20", "free": "Type 0", "gift": "Type 0", "4o": "digits only: 40", "1O.5l": "digits only: 10.51",
		"$20.00 cash": "such as 20.00", "20-25": "the one that was meant", "$20 to $25": "the one that was meant", "n/a": "Leave the cell blank", "-": "Leave the cell blank",
		"?": "Leave the cell blank", "TBD": "Leave the cell blank", "15+10": "Work it out", "120 + 12 BP": "Work it out", "10%": "Work it out and type the result; percentages", "10.5% fee": "Work it out and type the result; percentages", "3/9/2026": "wrong column", "lots": "Type digits only",
	} {
		_, refusal := measure.Money(text, point)
		require.NotNil(t, refusal, text)
		require.Equal(t, fault.CodeMoneyNotRead, refusal.Code, text)
		require.Contains(t, refusal.Fix, want, text)
	}
	for text, want := range map[string]string{"quart": "Type the number too, such as 1 qt.", "half a pint": "Type 1/2 pt.",
		"half": "Type 0.5 for that much of a container", "half a can": "Type 0.5 for", "some": "Type a number and a unit",
		"1 quart can": "Type 1 quart alone", "3 sheets of 220": "Type 3 sheets alone", "~8 oz": "without the mark",
		"?": "Leave the cell blank"} {
		_, refusal := measure.ReadAmount(text, point)
		require.NotNil(t, refusal, text)
		require.Contains(t, refusal.Fix, want, text)
	}
}

// What the message about an amount says to type is in it, and is then read as an
// amount of a can of a quart.
func TestAmountsToTypeAreRead(t *testing.T) {
	quart, _ := measure.FindUnit("qt")
	inCans := func(text string, style measure.Style) *measure.Refusal {
		a, refusal := measure.ReadAmount(text, style)
		if refusal == nil {
			_, refusal = a.InContainers(rat(t, "1"), quart)
		}
		return refusal
	}
	for text, typed := range map[string][2]string{"half a can": {"0.5", "0,5"}, "half can": {"0.5", "0,5"},
		"half of it": {"0.5", "0,5"}, "a quarter": {"0.25", "0,25"}, "third of a can": {"0.33", "0,33"},
		"half a pint": {"1/2 pt", "1/2 pt"}, "1/2 can": {"1/2", "1/2"}, "3 cans": {"3", "3"}, "2 tubes": {"2", "2"},
		"1 quart can": {"1 quart", "1 quart"}, "8 oz": {"8 fl oz", "8 fl oz"}, "pint": {"1 pt", "1 pt"}} {
		for i, style := range []measure.Style{point, comma} {
			refusal := inCans(text, style)
			require.NotNil(t, refusal, text)
			require.Contains(t, refusal.Fix, " "+typed[i], text)
			require.Nil(t, inCans(typed[i], style), typed[i])
		}
	}
}

// TestDigitsAloneReadAsByThePatterns: what is read without the patterns reads as it
// does with a sign before it, which only they read.
func TestDigitsAloneReadAsByThePatterns(t *testing.T) {
	for _, text := range []string{"0", "7", "007", "0.5", "12.5", "12.50", "0.125", "12.345", "1.2345", "1.23456",
		"1.234567",
		"123456789012.12", "1234567890123", "12345678901234", "1234567890123.12345", ".5", "5.", "1.2.3", "1,250",
		"1,5", ""} {
		for _, style := range []measure.Style{point, comma} {
			for _, text := range []string{text, strings.NewReplacer(".", ",", ",", ".").Replace(text)} {
				n, refusal := measure.Number(text, style)
				signed, signedRefusal := measure.Number("+"+text, style)
				require.Equal(t, signedRefusal == nil, refusal == nil, text)
				if refusal == nil && signedRefusal == nil {
					require.Equal(t, signed.RatString(), n.RatString(), text)
				}
				cents, refusal := measure.Money(text, style)
				signedCents, signedRefusal := measure.Money("+"+text, style)
				require.Equal(t, signedCents, cents, text)
				require.Equal(t, signedRefusal == nil, refusal == nil, text)
			}
		}
	}
}
