package commands

import (
	"fmt"
	"strings"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/text"
)

// example is a command as it is typed, and what it does.
type example struct{ line, does string }

// examples are those of each command, the simplest first. They are the only
// ones there are: --help, wrong use and the start without arguments print them.
var examples = map[string][]example{
	"start": {{"start books", "a new books folder, with a workbook to fill in"}},
	"check": {{"check", "is everything readable? what is worth a look?"},
		{"check --all", "every problem, also where there are more than twenty of a kind"},
		{"check --datapackage", "describes the records to other programs"}},
	"month": {{"month", "the last month's pack"}, {"month 2026-03", "another month's"},
		{"month --draft", "without the lines that have problems, marked DRAFT"},
		{"month north south 2026-03", "the packs of the books folders north and south"}},
	"sheet": {{"sheet P012", "one piece's profit sheet, as a PDF"}, {"sheet P012 --text", "the same in the terminal"},
		{"sheet P012 2026-03", "as it stood at a month's end"}},
	"why": {{"why P012 supplies", "what is behind a figure, each amount with its record"},
		{"why P012", "all of a piece"}, {"why statement trips", "a line of the month's statement"},
		{"why line 42 2026", "a line of the year's form"}},
	"seen": {{"seen typical-area pieces.csv:4", "no more of this note until one of its cells changes"}},
	"area": {{"area", "every piece's finish area"}, {"area disc 24", "a round top of 24 inches"},
		{"area rectangle 36 x 18", "a drawer front by its sides"}},
	"kinds": {{"kinds", "which kinds are worth buying"}, {"kinds --year 2026", "from one year only"},
		{"kinds --season spring", "from one season of every year"}},
	"offer": {{"offer --kind dresser", "the most to pay for the next one, and how sure that is"},
		{"offer --kind dresser --sells-for 240 --asked 60", "buy it at 60? yes or no, with the chance"}},
	"close":    {{"close 2026-03", "what was given out up to March stays as it is"}},
	"reopen":   {{`reopen 2026-03 --because "the invoice was another"`, "opens it and all later months again"}},
	"again":    {{"again 2026-03", "a closed month worked out again from the copy of its records"}},
	"year":     {{"year 2026", "a tax year's cost records"}},
	"handover": {{"handover 2026", "one folder of them, with the records, to hand over or keep"}},
	"cards": {{"cards", "cards for the bench, the shelf and the sale, four to a page"},
		{"cards bench --one", "the bench card alone, one to a page"}, {"cards --paper a4", "on A4"}},
	"guide":      {{"guide", "guide.pdf: from the first piece to the year's end"}, {"guide --paper a4", "on A4"}},
	"menu":       {{"menu", "asks what to do by numbers, as a double click does"}},
	"completion": {{"completion bash", "what makes bash complete the commands; also zsh, fish and powershell"}},
}

// exampleLines are the first examples of some commands, what they do beside, on
// a terminal of so many columns.
func exampleLines(wide int, commands ...string) []string {
	var list []example
	for _, c := range commands {
		list = append(list, examples[c][0])
	}
	return beside(wide, list)
}

// How far in the help has its examples, and the least room for what they do.
const (
	helpIndent   = 2
	leastForDoes = 24
)

// lineWide is how many columns help and reports are set for.
func lineWide(w terminal.Console) int {
	if w.OutWide == 0 {
		return text.Width
	}
	return min(text.Width, w.OutWide)
}

// beside sets examples in lines of so many columns, with what they do at the
// same column, or under them where there is no room.
func beside(wide int, list []example) []string {
	start := 0
	for _, e := range list {
		start = max(start, len("  piecebook ")+len(e.line)+len("  "))
	}
	room := wide - helpIndent - start
	var out []string
	for _, e := range list {
		line := "  piecebook " + e.line
		if room < leastForDoes {
			out = append(out, line)
			line, start = "", len("      ")
		}
		for _, part := range text.Fold(e.does, max(leastForDoes, wide-helpIndent-start)) {
			out = append(out, fmt.Sprintf("%-*s%s", start, line, part))
			line = ""
		}
	}
	return out
}

// helpOf is the part of a command's help with its examples.
func helpOf(wide int, command string) string {
	return "Examples:\n\n" + strings.Join(beside(wide, examples[command]), "\n")
}
