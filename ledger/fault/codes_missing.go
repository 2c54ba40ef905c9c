package fault

// The codes of what a costed ledger shows to be missing from the records.
const (
	CodePieceNoSupplies  Code = "piece-without-supplies"
	CodePieceLacksSupply Code = "piece-lacks-supply"
	CodeScheduleWaits    Code = "schedule-waits"
	CodeNoUses           Code = "supplies-on-no-piece"
	CodeGoneMore         Code = "gone-more-than-uses"
	CodeGoneLess         Code = "gone-less-than-uses"
	CodeBoughtEarly      Code = "bought-with-plenty-left"
	CodeLossUnexplained  Code = "loss-unexplained"
	CodeUsesBeforeCount  Code = "uses-before-count"
	CodeShelfHeldLong    Code = "shelf-held-long"
)

// MissingCatalogue says what each code means.
var MissingCatalogue = map[Code]string{
	CodePieceNoSupplies: "pieces finished or sold in the month with hours but no use of any supply",
	CodePieceLacksSupply: "a piece finished or sold in the month without a supply that nearly every other of its " +
		"schedule or kind had",
	CodeScheduleWaits:   "pieces with hours and a schedule but no day finished, listed or sold, so nothing is used yet",
	CodeNoUses:          "supplies bought and pieces finished or sold, but no use of any supply",
	CodeGoneMore:        "a count shows far more gone than the uses explain by the shop's own coverage",
	CodeGoneLess:        "a count shows far less gone than the uses explain by the shop's own coverage",
	CodeBoughtEarly:     "a supply bought again while by the shop's own coverage much of it was left",
	CodeLossUnexplained: "a count makes a loss that what was discarded does not explain",
	CodeUsesBeforeCount: "a count of a month's first five days with uses of its supply in those days before it",
	CodeShelfHeldLong:   "a supply held for six months whose shelf is worth more than was used of it in six",
}
