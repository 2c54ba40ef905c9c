package words

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
)

// yearNotes are the sentences for the owner and the preparer of a tax year. Of
// {one|many} the note's first number decides.
var yearNotes = map[taxyear.Sentence]string{
	taxyear.InWords:    "%s",
	taxyear.NotWhole:   "The year is not whole: %s.",
	taxyear.NoRecord:   "no record is dated in it",
	taxyear.LastRecord: "the last record is of %s",
	taxyear.NotCounted: "The shelf was not counted at the year's end for %d {supply|supplies}: %s. A count of 1 to 5 " +
		"January still closes December.",
	taxyear.NotExplained: "%s reported %s; the recorded sales explain all but %s. %s",
	taxyear.NoStatement:  "No yearly statement of %s is in Statements. If it sent one, enter it.",
	taxyear.NoSale: "Other income has %s of tools sold, Equipment %s. Fill in sold on and sold for of each tool that " +
		"was in Equipment, so that its write-off ends.",
	taxyear.NoReceipts:       "%d {cost|costs} above %s {names|name} no receipt: %s together.",
	taxyear.PaidFor:          "%s for %s",
	taxyear.NoPayee:          "No payee is named for %s. Fill in to on those rows of Expenses, from on those of Parts.",
	taxyear.DonatedNoValue:   "%s was donated; its fair value that day is not written down (value in Removals).",
	taxyear.DonatedNoReceipt: "%s was donated; no receipt is named.",
	taxyear.KeptNoValue:      "%s was kept; its fair value that day is not written down (value in Removals).",
	taxyear.StolenNoPaper:    "%s was stolen; no police or insurance paper is named (receipt in Removals).",
	taxyear.NoFirstUse: "The day the vehicle was first used for the business is not given: in_service under [vehicle] " +
		"in settings.toml.",
	taxyear.NoDistance: "The vehicle's total %[1]s of %[2]d are not given: \"%[2]d\" under [vehicle] in " +
		"settings.toml.",
	taxyear.DistanceBelowLog: "The vehicle's total %s of %d in settings.toml are fewer than the log's.",
	taxyear.NoDestination:    "Some trips do not say where they went (to in Trips), the first on %s.",
	taxyear.HomeNotGiven: "Whether the shop is in the owner's home is not said: [home] in settings.toml asks " +
		"its square feet, for line %s.",
	taxyear.UtilitiesOfHome:  "Line %s has %s of utilities. If part of it is the home's: %s",
	taxyear.JustTheSales:     "It is the prices and delivery charged of the recorded sales.",
	taxyear.ExplainedByThese: "These explain it to the cent; the channel's own report says whether they are so.",
	taxyear.SaleAt:           "The sale of %s on %s (%s) is just that much",
	taxyear.SaleTooMuch: "%s: the channel may count it in another year, or it was sold elsewhere, or it is entered " +
		"twice.",
	taxyear.SaleOfOtherYear: "%s: the channel may count it in this year.",
	taxyear.SaleElsewhere:   "%s and stands on %s: it may be this channel's.",
	taxyear.SaleNotWritten:  "A sale on this channel of %s, or several together, may not be written down.",
	taxyear.SalesPaidOtherwise: "Sales of %s may have been paid by other means, or fall in another year by the " +
		"channel's dates.",
	taxyear.OtherCurrency: "There are no tax lines here for books in %[3]s. Lines, write-offs over years and built-in " +
		"rates are those of another country, by %[1]s, in %[2]s: they sort the amounts, no more. Other rates for trips go " +
		"under [mileage] in settings.toml.",
	taxyear.PartPayments: "Line %s has %s of part payments on pieces that had not left at %s: they count on the day " +
		"the money came.",
	taxyear.SuppliesStayCounted: "%s was %s; %s of supplies that do not stay on it were counted when used and are not " +
		"taken back.",
	taxyear.QuestionOfLine: "Line %s: %s",
	taxyear.LineBelowZero: "Line %s is below zero, %s: more came back than was paid, or than came in. A form may not " +
		"take it so.",
	taxyear.YearBelowZero: "Below zero for the year: {line|lines} %[2]s. What of a loss counts is for the preparer.",
	taxyear.LateBuyingApplies: "Of the %s of equipment bought in %d to be written off over years, %s came in the last " +
		"quarter: %s %%, above %s %%, so all of it goes by the tables by quarter (%s). The first year's " +
		"write-off is %s; by the table for all the year it would be %s.",
	taxyear.PercentNotSeen: "%s is in year %d of %s, whose percent %s was worked out by the publication's rule and " +
		"not seen in print. Compare it.",
	taxyear.ToolMoneyNowhere: "Of the money for tools sold, %s by Equipment, other income has %s: the rest is in no " +
		"line here, nor in net profit.",
	taxyear.AboveLimit: "%s cost %s, above the limit per item of %s, and is written off at once as its row says: a " +
		"preparer's decision%s.",
	taxyear.NoAllowance:    "No allowance for that day is in these tables",
	taxyear.AllowanceByLaw: "By law the allowance for that day is %s %% of the cost (%s)",
	taxyear.WholeAtOnce:    "%s, bought on %s, is written off whole in its first year as its row says. %s: compare it.",
	taxyear.WithoutAllowance: "These figures use line %[1]s without that allowance: line %[1]s is %[2]s and line " +
		"%[3]s is %[4]s. With it, by the default: line %[1]s %[5]s and line %[3]s %[6]s.",
	taxyear.OverYears: "%s (%s over %s years, %s this year)",
	taxyear.AllowanceByDefault: "Bought from %s on: %s. By default the law takes %s %% of this, %s, as a special " +
		"allowance in the first year, unless it is elected out of by class (%s). A preparer's decision.",
	taxyear.Gain:             "gain of %s",
	taxyear.Loss:             "loss of %s",
	taxyear.WrittenOffOf:     "of its cost of %s, %s was written off and %s left",
	taxyear.WrittenOffAtOnce: "its cost of %s was written off at once",
	taxyear.NotWrittenOff:    "bought in the same year, so nothing of its cost of %s is written off",
	taxyear.ToolSold:         "%s, bought on %s, was sold on %s for %s; %s: a %s%s.",
	taxyear.OwnGoods:         "%s was the household's own and came in at %s; %s.",
	taxyear.LateOpening: "The opening of %s is dated %s, after the books began (%s): it is in the stock of the " +
		"beginning, so this year's opening differs from the closing handed out before it was entered.",
	taxyear.HomeBySquareFeet: "Line %s, use of the home, is not in these lines. Of %s square feet %s count by the " +
		"simplified method: %s%s. The other method needs what is asked on its page.",
	taxyear.WithinProfit:    ", no more than the profit before it: %s",
	taxyear.UtilitiesInLine: "Line %s has %s of utilities. %s",
	taxyear.PayeePaid:       "%s, %s for %s (%s)",
	taxyear.PayeesOverLimit: "At or above the year's limit of %s for one payee and form (%s): %s. %s",
	taxyear.ChangedMethod: "A change of method: %s has tax_supplies = %q for %d, this year has %q. By that alone the " +
		"year opens %s apart from the closing. Of it %s is supplies on pieces in stock, which %s, and %s is " +
		"supplies on the shelf, which count once%s.",
	taxyear.CountedTwice: "would be counted in both years",
	taxyear.CountedNever: "would be counted in neither year",
	taxyear.OpeningChanged: "The year opens with %s; %s closed %[3]d with %[4]s, %[5]s apart. Records of %[3]d or " +
		"before were changed since: explain it on the return, or make that year's pages again.",
}

var oneOrMany = regexp.MustCompile(`\{(\w+)\|(\w+)\}`)

// YearNote is a note of a tax year in words: money to the cent, other numbers to
// two decimals.
func YearNote(n taxyear.Note) string {
	shown, many := make([]any, len(n.Of)), 0
	for i, x := range n.Of {
		if count, is := x.(int); is && many == 0 {
			many = count
		}
		shown[i] = inNote(x)
	}
	format := oneOrMany.ReplaceAllString(yearNotes[n.Says], map[bool]string{true: "$1", false: "$2"}[many == 1])
	return fmt.Sprintf(format, shown...)
}

// inNote is what stands in a note as its words have it.
func inNote(x any) any {
	switch x := x.(type) {
	case money.Cents:
		return x.Grouped()
	case *big.Rat:
		return money.AtMost(x, 2)
	case calendar.Month:
		return x.Name()
	case taxyear.Channel:
		return Channel(x.Name)
	case taxyear.Note:
		return YearNote(x)
	case []taxyear.Note:
		var all []string
		for _, n := range x {
			all = append(all, YearNote(n))
		}
		return strings.Join(all, ", ")
	case []string:
		return fault.Few(x)
	}
	return x
}

// Channel is a channel as printed.
func Channel(name string) string {
	if name == "" {
		return "Direct, no channel"
	}
	return name
}
