package fault

// Codes of what only costing can see.
var (
	TakenBackMore  = costing("taken-back-more", "more of a supply was taken back to the supplier than there is")
	UsedMore       = costing("used-more-than-left", "the month's uses of a supply want more than is left of it")
	NoCoverage     = costing("no-coverage", "a supply was used and nothing says how much one container does")
	CountAbove     = costing("count-above-records", "a count is above all that the records explain")
	LateCost       = costing("late-cost", "a count, or a supply bought again, moves cost on a piece that has left")
	MovedAboveCost = costing("moved-above-cost", "more was moved from a piece than it had cost by the month's end")
	NoMileageRate  = costing("no-mileage-rate", "no mileage rate is known for a trip's date")
)

// CostingCatalogue says what each code means.
var CostingCatalogue = catalogue{}

func costing(name, meaning string) Code { return CostingCatalogue.code(name, meaning) }
