package fault

// Codes of what only costing can see.
const (
	TakenBackMore  Code = "taken-back-more"
	UsedMore       Code = "used-more-than-left"
	NoCoverage     Code = "no-coverage"
	CountAbove     Code = "count-above-records"
	LateCost       Code = "late-cost"
	MovedAboveCost Code = "moved-above-cost"
	NoMileageRate  Code = "no-mileage-rate"
)

// CostingCatalogue says what each code means.
var CostingCatalogue = map[Code]string{
	TakenBackMore:  "more of a supply was taken back to the supplier than there is",
	UsedMore:       "the month's uses of a supply want more than is left of it",
	NoCoverage:     "a supply was used and nothing says how much one container does",
	CountAbove:     "a count is above all that the records explain",
	LateCost:       "a count, or a supply bought again, moves cost on a piece that has left",
	MovedAboveCost: "more was moved from a piece than it had cost by the month's end",
	NoMileageRate:  "no mileage rate is known for a trip's date",
}
