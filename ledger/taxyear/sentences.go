package taxyear

// Sentence is which sentence a note is; report/words has its words.
type Sentence int

// The sentences.
const (
	_ Sentence = iota

	// Of what is missing.

	InWords // a sentence of the country's tables, or of a closed month
	NotWhole
	NoRecord
	LastRecord
	NotCounted
	NotExplained
	NoStatement
	NoSale
	NoReceipts
	PaidFor
	NoPayee
	DonatedNoValue
	DonatedNoReceipt
	KeptNoValue
	StolenNoPaper
	NoFirstUse
	NoDistance
	DistanceBelowLog
	NoDestination
	HomeNotGiven
	UtilitiesOfHome

	// Of how a channel's total is explained.

	JustTheSales
	ExplainedByThese
	SaleAt
	SaleTooMuch
	SaleOfOtherYear
	SaleElsewhere
	SaleNotWritten
	SalesPaidOtherwise

	// Of what the preparer decides.

	OtherCurrency
	PartPayments
	SuppliesStayCounted
	QuestionOfLine
	LineBelowZero
	YearBelowZero
	LateBuyingApplies
	PercentNotSeen
	ToolMoneyNowhere
	AboveLimit
	NoAllowance
	AllowanceByLaw
	WholeAtOnce
	WithoutAllowance
	OverYears
	AllowanceByDefault
	Gain
	Loss
	WrittenOffOf
	WrittenOffAtOnce
	NotWrittenOff
	ToolSold
	OwnGoods
	LateOpening
	HomeBySquareFeet
	WithinProfit
	UtilitiesInLine
	PayeePaid
	PayeesOverLimit
	ChangedMethod
	CountedTwice
	CountedNever
	OpeningChanged

	// Sentences is how many there are, and one.
	Sentences
)
