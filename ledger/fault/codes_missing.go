package fault

// The codes of what a costed ledger shows to be missing from the records.
var (
	CodePieceNoSupplies = missing("piece-without-supplies",
		"pieces finished or sold in the month with hours but no use of any supply")
	CodePieceLacksSupply = missing("piece-lacks-supply",
		"a piece finished or sold in the month without a supply that nearly every other of its schedule or kind had")
	CodeScheduleWaits = missing("schedule-waits",
		"pieces with hours and a schedule but no day finished, listed or sold, so nothing is used yet")
	CodeNoUses = missing("supplies-on-no-piece",
		"supplies bought and pieces finished or sold, but no use of any supply")
	CodeGoneMore = missing("gone-more-than-uses",
		"a count shows far more gone than the uses explain by the shop's own coverage")
	CodeGoneLess = missing("gone-less-than-uses",
		"a count shows far less gone than the uses explain by the shop's own coverage")
	CodeBoughtEarly = missing("bought-with-plenty-left",
		"a supply bought again while by the shop's own coverage much of it was left")
	CodeLossUnexplained = missing("loss-unexplained", "a count makes a loss that what was discarded does not explain")
	CodeUsesBeforeCount = missing("uses-before-count",
		"a count of a month's first five days with uses of its supply in those days before it")
	CodeShelfHeldLong = missing("shelf-held-long",
		"a supply held for six months whose shelf is worth more than was used of it in six")
)

// MissingCatalogue says what each code means.
var MissingCatalogue = catalogue{}

func missing(name, meaning string) Code { return MissingCatalogue.code(name, meaning) }
