package fault

// The codes of reading: what can be wrong with a file, a sheet, a cell, a row
// or a reference. Each has its meaning in IntakeCodes.
var (
	// Files and sheets.
	CodeNoRecords       = intake("no-records", "there is nothing to read")
	CodeFileNotRead     = intake("file-not-read", "a file cannot be read for what it is")
	CodeFileSkipped     = intake("file-skipped", "a file of another kind is among the records (note)")
	CodeFileCopy        = intake("file-is-copy", "all rows of a file stand in another one too")
	CodeFileTooBig      = intake("file-too-big", "a file or sheet is beyond the size limits")
	CodeLettersGuessed  = intake("letters-guessed", "a file's letters were taken for Windows ones (note)")
	CodeSheetSkipped    = intake("sheet-skipped", "a sheet or file has no table's name (note)")
	CodeSheetFitsOther  = intake("sheet-fits-other", "a sheet is named for one table and has another's columns (note)")
	CodeNoHeader        = intake("no-header", "a table has no row of column names")
	CodeStrayQuote      = intake("stray-quote", "text follows a closing quotation mark")
	CodeQuoteNotClosed  = intake("quote-not-closed", "a quotation mark is never closed")
	CodeColumnMissing   = intake("column-missing", "a column the table needs is not there")
	CodeColumnTwice     = intake("column-twice", "two columns are read as the same one")
	CodeColumnMeaning   = intake("column-holds-other", "a column of days holds none (reported once for the column)")
	CodeHeaderUnknown   = intake("header-unknown", "a column name is not one of the table's (note)")
	CodeHeaderBlank     = intake("header-blank", "a filled column has no name (note)")
	CodeRowTooLong      = intake("row-too-long", "a row has more values than there are columns")
	CodeTotalsRow       = intake("totals-row", "a row holds totals and no record (note)")
	CodeHeaderAgain     = intake("header-again", "a row is the column names again (note)")
	CodeHeadingRow      = intake("heading-row", "a row holds only a heading, a month or a year, or a remark (note)")
	CodeRowBarelyFilled = intake("row-barely-filled", "a row has one cell filled, and its table needs more")
	CodeDistanceUnit    = intake("distance-unit", "distances are in km in a shop that counts miles")
	CodeDistanceAssumed = intake("distance-assumed", "a column called miles was read as km in a metric shop (note)")
	CodeTitleRows       = intake("title-rows", "rows above the column names were taken for a title (note)")
	CodeHiddenRead      = intake("hidden-read", "hidden rows, columns or a hidden sheet were read (note)")
	CodeMergedCells     = intake("merged-cells", "cells are merged, and only the first of them holds the value (note)")
	CodeFilesBeside     = intake("files-not-read",
		"files that may hold records are outside the folder that is read (note)")
	CodeOwnReport     = intake("own-report", "a workbook that piecebook made itself is not read as records (note)")
	CodeTablesOnSheet = intake("tables-on-sheet",
		"a sheet has several tables, and this is what one of them is read as (note)")
	CodeTableUnnamed = intake("table-unnamed", "one of several tables on a sheet is named for none")
	CodeCrossedOut   = intake("crossed-out", "a row or cell is crossed out and left out (note)")
	CodeSumDiffers   = intake("sum-differs", "a sum is not what the rows it stands by come to (note)")
	CodeSumUnclear   = intake("sum-unclear", "a row is called a sum, and is not what the rows above come to")
	CodeSaidInWords  = intake("said-in-words", "an amount was read out of words (note, reported once for a column)")
	CodeYearTaken    = intake("year-taken",
		"days without a year were read as of the year the sheet is of (note, reported once for a sheet)")
	CodeYearDoubtful = intake("year-doubtful",
		"a day without a year may be of the year before or after the sheet's month")
	CodeChannelDirect = intake("channel-direct",
		"a sale without a channel was read as direct (note, reported once for a sheet)")
	CodeFeeFromNet = intake("fee-from-net",
		"fees were worked out from what reached the owner (note, reported once for a sheet)")
	CodeNetDiffers = intake("net-differs",
		"what reached the owner does not fit the fee that is typed or the channel's terms (note)")
	CodeNetUnclear    = intake("net-unclear", "what the fee is cannot be known from what reached the owner")
	CodeTicksAsked    = intake("ticks-asked", "a column of ticks does not say what a ticked piece sold for")
	CodeNameOtherwise = intake("name-otherwise",
		"a name in other words' order or signs was read as the one there is (note)")
	CodeTurnedOver   = intake("turned-over", "a sheet has its names below each other and is read turned over (note)")
	CodeFormRead     = intake("form-read", "the same form on many sheets is read as a piece each (note)")
	CodeFormLeft     = intake("form-left", "something on a form is no fact of a piece by its name (note)")
	CodeLinesOfWords = intake("lines-of-words", "a sheet holds lines of words, which are no rows of a table")
	CodeSupplyBySlip = intake("supply-by-slip",
		"a supply that is in no table was made of the words of a slip (note, reported once for a sheet)")
	CodeSlipUnplaced = intake("slip-unplaced",
		"lines of a list of receipts name no supply and no piece, so they are in no figure (note)")
	CodeCashBook    = intake("cash-book", "a sheet says what came in and what went out, which are two tables (note)")
	CodeSlipIsPrice = intake("slip-is-price",
		"a line of receipts is what a piece itself cost, which Pieces has already (note)")
	CodeLessBack = intake("less-back",
		"less came back for what was returned than it had cost, and how many went back is not said (note)")
	CodeSaleUndone = intake("sale-undone",
		"a column that is not read says of a sale that it was undone, or is not done yet (note)")
	CodeAllBelow = intake("all-below-zero",
		"all amounts of a column of what was paid are below 0, which is money back (note)")
	CodeKindFromName = intake("kind-from-name",
		"kinds were read from the names of pieces (note, reported once for a sheet)")
	CodeKindNotInName = intake("kind-not-in-name",
		"a piece's name does not end with the one kind it is (reported once for a sheet)")
	CodeSupplyAsPiece = intake("supply-as-piece",
		"a row of Pieces is a supply by its words (reported once for a sheet; of a whole row a note)")

	// Settings.
	CodeSettingsNotRead = intake("settings-not-read", "settings.toml cannot be read")
	CodeSettingUnknown  = intake("setting-unknown", "a setting of that name does not exist")
	CodeSettingValue    = intake("setting-value", "a setting has a value it cannot have")
	CodeSettingUnused   = intake("setting-unused", "settings.toml names a sheet or column that is not there (note)")

	// Cells.
	CodeCellMissing    = intake("cell-missing", "a cell that is needed is blank")
	CodeCellError      = intake("cell-error", "a cell holds a spreadsheet error")
	CodeCellTooLong    = intake("cell-too-long", "a cell holds more text than a spreadsheet's can")
	CodeCellNarrow     = intake("cell-too-narrow", "a spreadsheet wrote # signs for a column too narrow")
	CodeFormulaNoValue = intake("formula-no-value", "a formula was saved without its value")
	CodeDateNotRead    = intake("date-not-read", "a cell is not a date")
	CodeDateNoSuchDay  = intake("date-no-such-day", "there is no such day")
	CodeDateOtherOrder = intake("date-other-order",
		"days are written in the other order than dates says (reported once for a sheet)")
	CodeDateYearOnly   = intake("date-year-only", "a date is a bare year")
	CodeDateYearDigits = intake("date-year-two-digits", "a year of two digits from 50 on")
	CodeDateFarOff     = intake("date-far-off", "a date is outside 1950 to 2199")
	CodeDateIsNumber   = intake("date-is-number", "a spreadsheet turned a date into its count of days")
	CodeDateEitherWay  = intake("date-either-way",
		"days that can be read either way were read month first, and other things say day first (note)")
	CodeUnitsMetric      = intake("units-metric", "containers are metric throughout, and units is not set (note)")
	CodeCurrencyOther    = intake("currency-other", "amounts name another currency, and currency is not set (note)")
	CodeYearNotRead      = intake("year-not-read", "a cell is not a year")
	CodeMoneyNotRead     = intake("money-not-read", "a cell is not an amount of money")
	CodeMoneyDecimals    = intake("money-decimals", "money has over two decimals")
	CodeMoneyTooLarge    = intake("money-too-large", "money has over 13 digits before the decimals")
	CodeMoneyNegative    = intake("money-negative", "money is negative where it cannot be")
	CodeDecimalMark      = intake("decimal-mark", "a number uses the other decimal mark")
	CodeNumberNotRead    = intake("number-not-read", "a cell is not a number")
	CodeNumberNotFinite  = intake("number-not-finite", "a cell is NaN or an infinity")
	CodeNumberExponent   = intake("number-exponent", "a number is written with an exponent")
	CodeNumberIsDate     = intake("number-is-date", "a spreadsheet turned a number into a date")
	CodeNumberOutOfRange = intake("number-out-of-range", "a number is outside what the column takes")
	CodeNumberEitherWay  = intake("number-either-way", "a number's mark may be for thousands or for decimals (note)")
	CodeLengthNotRead    = intake("length-not-read", "a cell is not a length")
	CodeAmountNotRead    = intake("amount-not-read", "a cell is not an amount")
	CodeAmountRange      = intake("amount-out-of-range", "an amount is zero or negative where it cannot be")
	CodeUnitUnknown      = intake("unit-unknown", "a unit is not known")
	CodeUnitMissing      = intake("unit-missing", "an amount needs its unit")
	CodeUnitOtherKind    = intake("unit-other-kind", "a unit is of another kind than the supply's")
	CodeUnitNotShops     = intake("unit-not-the-shops",
		"an area or distance is in the other system than the shop works in")
	CodeCoveragePerUnit = intake("coverage-per-unit",
		"a coverage is of one unit, such as a gallon, and not of the container")
	CodeHoursNotRead = intake("hours-not-read", "a cell is not hours")
	CodeHoursTooMany = intake("hours-too-many", "an Hours line is over 24 hours")
	CodeHoursOfDay   = intake("hours-part-of-day",
		"hours are, or may be, a time of day as spreadsheets save it (else a note)")
	CodeChoiceUnknown = intake("choice-unknown", "a word is not one of those the column takes")
	CodeYesNoNotRead  = intake("yes-no-not-read", "a cell is neither yes nor no")
	CodeShapeMeasure  = intake("shape-measure", "a shape lacks a measure it needs")

	// References and names.
	CodePieceUnknown    = intake("piece-unknown", "no piece, lot or set has that name")
	CodeSupplyUnknown   = intake("supply-unknown", "no supply has that name")
	CodeLotUnknown      = intake("lot-unknown", "no lot has that name")
	CodeScheduleUnknown = intake("schedule-unknown", "no schedule has that name")
	CodeOnePieceOnly    = intake("one-piece-only", "a lot or set stands where one piece is needed")
	CodeRefusedRow      = intake("refers-to-refused", "a row depends on another that was refused")
	CodeNameTwice       = intake("name-twice", "two rows have the same name")
	CodeNameIsNumber    = intake("name-is-number", "a spreadsheet turned a name into a date or a number with an exponent")
	CodeNameLooksNumber = intake("name-looks-like-number", "a name looks as if a spreadsheet had changed it (note)")
	CodeLotEmpty        = intake("lot-empty", "no piece belongs to a lot")
	CodePieceOfSeveral  = intake("piece-of-several",
		"a piece's name is that of several things (note, reported once for a sheet)")

	// Rows.
	CodePriceMissing   = intake("price-missing", "a bought or traded piece has neither price nor lot")
	CodePriceOnFree    = intake("price-on-free", "a free or client piece has a price")
	CodePriceAndLot    = intake("price-and-lot", "a piece has both a lot and a price")
	CodeLotDate        = intake("lot-date-differs", "a piece's day differs from its lot's (note)")
	CodeSaleIncomplete = intake("sale-incomplete",
		"a sale of a piece on its own row, or of a tool, lacks its day or price, or came before it was bought")
	CodeSoldOnBoth         = intake("sold-on-both", "a piece is sold on its own row and in Sales")
	CodeSupplyOrSchedule   = intake("supply-or-schedule", "a use has both or neither of supply and schedule")
	CodeAmountWithSchedule = intake("amount-with-schedule", "a use of a schedule has an amount")
	CodeTakenBackSigns     = intake("taken-back-signs", "containers and cost of a purchase differ in sign")
	CodeAreaMissing        = intake("area-missing", "a use has no area and its piece none either")
	CodeLifeMissing        = intake("life-missing", "a tool above the year's limit has no life")
	CodeTypicalArea        = intake("typical-area", "a piece's area is the usual one of its kind (note)")
	CodeStartingCoverage   = intake("starting-coverage", "a supply's coverage is its group's usual one (note)")
	CodeDeliveryEither     = intake("delivery-either",
		"a column of delivery may be what buyers paid or what it cost the shop")
	CodeForPiece   = intake("receipts-for-piece", "a column of a list of receipts says which piece a line is for (note)")
	CodeUnitBeside = intake("unit-beside",
		"a column beside numbers holds their units, and the two are read together (note)")
	CodeQuantityUnread = intake("quantity-beside-price",
		"a number of things stands beside a price that is read as the whole line (note)")
	CodeShopPart      = intake("shop-part-beside", "a column says which part of each amount is the shop's")
	CodeAmountInWords = intake("amount-in-words",
		"remarks name money that is in no column (note, reported once for a column)")
	CodeOwnMoney = intake("own-money",
		"by its words money was moved or taken by the owner, which is neither cost nor income")
	CodeTaxEither = intake("tax-beside-sale",
		"the tax beside the price it sold for is read as tax paid on buying (note)")
	CodeScheduleNotCounted = intake("schedule-not-counted",
		"a piece has a schedule on its row, but lines of Uses that name none of its supplies count alone (note)")
	CodeHoursTwice          = intake("hours-on-both", "a piece has hours on its own row and in Hours too (note)")
	CodeContainersLikeUnits = intake("containers-like-units", "as many containers as there are units in one (note)")
	CodeContainersOne       = intake("containers-one", "a line of receipts without a count of containers is one (note)")
	CodeOuncesAsWeight      = intake("ounces-as-weight",
		"a container of a liquid in plain ounces, which are a weight (note)")
	CodePercentBelowOne = intake("percent-below-one", "a percentage is typed as a bare number below 1 (note)")
	CodeKindNearlyKnown = intake("kind-nearly-known",
		"a kind that one piece has is spelled nearly like another (note)")
	CodeChannelNearlyAlike = intake("channel-nearly-alike", "a channel is spelled nearly like another (note)")
)

// IntakeCodes is what each code of reading means, in one line.
var IntakeCodes = catalogue{}

func intake(name, meaning string) Code { return IntakeCodes.code(name, meaning) }
