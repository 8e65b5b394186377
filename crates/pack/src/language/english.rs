//! The pack in English.

use super::{Sentence, Word};

/// A word or sentence without arguments.
pub(crate) fn word(word: Word) -> &'static str {
    match word {
        Word::About => "About",
        Word::Accepted => "accepted",
        Word::Accessory => "Accessory",
        Word::AcrossContact => "Across the relay's contact",
        Word::AcrossLock => "Across the lock",
        Word::Address => "Address",
        Word::AddressMissing => "no address: see the snag list",
        Word::Advice => "advice",
        Word::AgeingRemark => "after ageing and temperature",
        Word::AllRunsOff => "Take every run off the outputs, switch the mains on.",
        Word::AlternatingCurrent => "alternating current",
        Word::Ambient => "Ambient temperature",
        Word::AssumedValue => "Rests on an assumed value",
        Word::AudioDoorStation => "Door station, audio",
        Word::AudioExtension => "Indoor station, audio, extension",
        Word::AudioStation => "Indoor station, audio",
        Word::Battery => "Battery",
        Word::BatteryCapacity => "Capacity of the battery",
        Word::BatteryHours => "Hours on battery",
        Word::BatteryTakesOver => "Switch the mains off: the system stays on. Switch it on again.",
        Word::BatteryVoltage => "Voltage of the battery",
        Word::BeforePowerNote => "Nothing is under power on this sheet. Work from top to bottom.",
        Word::BeforePowerTitle => "Commissioning before power",
        Word::BesideMains => "shares its route with mains: separate it",
        Word::BoxKind => "Distributor or branch box",
        Word::BranchBox => "Branch box",
        Word::BranchBoxes => "Branch boxes",
        Word::Buildings => "Buildings",
        Word::Buried => "in the ground",
        Word::BusCollapses => "not judged: the bus has no operating point there",
        Word::Buttons => "buttons",
        Word::By => "By",
        Word::Cable => "Cable",
        Word::CableEnd => "Cable",
        Word::CableType => "Cable type",
        Word::CablesTitle => "Cable list",
        Word::CalculationsNote => {
            "Worst device of every supply in its worst state, every tolerance against it; then every lock; then every supply."
        }
        Word::CalculationsTitle => "Calculation sheets",
        Word::Called => "Called",
        Word::CalledFrom => "Can be called from",
        Word::CallsTitle => "Who calls whom",
        Word::CapacityCountedOn => "Capacity that is counted on",
        Word::CautionApart => "Keep extra-low voltage apart from mains, in cable routes and in boxes.",
        Word::CautionAssumed => "Some figures rest on assumed values.",
        Word::CautionCodes => "Local codes prevail over this pack.",
        Word::CautionDiode => "Mind the polarity of the diode; never on alternating current.",
        Word::CautionDrive => {
            "The safety devices of the drive are another trade's work; a contact must not bypass them."
        }
        Word::CautionEscape => {
            "Release on escape routes and the fire interlock are decided by the responsible person."
        }
        Word::CautionIsolate => "Isolate and prove dead before wiring.",
        Word::CautionMains => "Work on mains is done by licensed people only.",
        Word::CautionNoCertificate => "This is a calculation and a plan, not a certificate of compliance.",
        Word::CautionOpens => {
            "The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it."
        }
        Word::CautionSecureSide => "Mount the relay on the secure side of the door.",
        Word::CautionWayOut => "The way out must work without the bus and without the door station.",
        Word::Cautions => "Cautions",
        Word::ChangeCredentials => {
            "Change every factory code and password. Do not write the new ones on this sheet."
        }
        Word::ChargeCurrent => "Charging current",
        Word::ChargingPower => "Power for charging",
        Word::ChargingWaits => "what the load leaves of the rated power",
        Word::ClampPart => "Suppressor diode (clamp)",
        Word::Colour => "Colour",
        Word::ColourConvention => {
            "Colours by IEC 60757, by convention: two-core flexible BN/BU (HD 308 S2), four pairs AWG as ANSI/TIA-568, else WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). If the cable has others, write down what was used."
        }
        Word::CompareDeviceList => {
            "Have the system list its devices; hold the list against the device schedule: none missing, none unexpected, none twice."
        }
        Word::ConductorSize => "Conductor",
        Word::Contents => "Contents",
        Word::ContentsTitle => "Pack",
        Word::ContinuousDuty => "rated for continuous duty",
        Word::ControlHeight => "Height of the controls",
        Word::CornersMeaning => {
            "Lowest and highest: the nominal calculation repeated with every tolerance (supply, cable, length, temperature, loads) against the voltage, then with every tolerance for it."
        }
        Word::Current => "Current",
        Word::CurrentInHand => "Current in hand",
        Word::CurrentKind => "Kind of current",
        Word::CutBoundMeaning => {
            "Proved least: the drums bought equal a lower bound (their total holds every piece; or the dual of the Gilmore-Gomory program, its prices checked by an integer knapsack), so no cutting plan buys less."
        }
        Word::CutLength => "Cut to",
        Word::CutListTitle => "Cut list",
        Word::DateDone => "Date mended",
        Word::DateWord => "Date",
        Word::DelayedEgress => "Delayed egress",
        Word::Designation => "Designation",
        Word::Device => "Device",
        Word::DevicesTitle => "Device schedule, in walking order",
        Word::DiodePart => "Diode, cathode to plus",
        Word::DirectCurrent => "direct current",
        Word::DisconnectBattery => "Disconnect the battery.",
        Word::Distributor => "Distributor",
        Word::Distributors => "Distributors",
        Word::Done => "Done",
        Word::Door => "Door",
        Word::DoorContactPart => "Door contact",
        Word::DoorStation => "Door station",
        Word::DoorsTitle => "Door sheets",
        Word::DrawingLanguage => "Drawings are lettered in English.",
        Word::DriveInput => "input of the drive",
        Word::DropInBox => "Drop inside a box, input to port",
        Word::DropInSource => "Drop inside the source",
        Word::Drum => "Drum",
        Word::DrumLength => "Length of drum",
        Word::Dwelling => "Dwelling",
        Word::Dwellings => "Dwellings",
        Word::EitherCurrent => "direct or alternating current",
        Word::EmergencyReleaseClosed => "emergency release (normally closed)",
        Word::EmergencyReleasePart => "Emergency release",
        Word::EndOfChain => "end of the chain, stays empty",
        Word::Energised => "Energised",
        Word::Entrances => "Entrances",
        Word::Error => "error",
        Word::EscapeRoute => "Escape route",
        Word::EscapeWithoutSystem => {
            "With the system off, the door opens from inside with one action, without a key."
        }
        Word::ExistingCable => "Cable in the walls already",
        Word::ExistingColours => "existing cable: write down the colour found",
        Word::ExitButtonNormallyClosed => "exit button (normally closed)",
        Word::ExitButtonNormallyOpen => "exit button (normally open)",
        Word::ExitButtonPart => "Exit button",
        Word::ExpectedValue => "Expected",
        Word::FailSafe => "opens without power (fail-safe)",
        Word::FailSecure => "stays shut without power (fail-secure)",
        Word::Family => "Family of parts",
        Word::FeedBus => "from the bus through the relay",
        Word::FeedDryContact => "has power of its own, takes a dry contact",
        Word::FeedMinus => "feed −",
        Word::FeedOwnSupply => "from a supply of its own through the relay",
        Word::FeedPlus => "feed +",
        Word::FeedStation => "from the door station's lock output",
        Word::FieldBuilding => "building",
        Word::FieldDwelling => "dwelling",
        Word::FieldEntrance => "entrance",
        Word::FieldExtension => "extension",
        Word::FieldManagement => "management",
        Word::FireContactClosed => "fire alarm contact (normally closed)",
        Word::FireInterlock => "Fire interlock",
        Word::FireInterlockTest => "With the responsible person: the fire alarm's contact releases the door.",
        Word::For => "For",
        Word::Formula => "Formula",
        Word::Free => "free",
        Word::FreePorts => "Free ports",
        Word::From => "From",
        Word::GateDrive => "gate drive",
        Word::GivenAsBuilt => "As-built drawings and readings",
        Word::GivenCredentials => "Credentials, sealed, to the owner in person",
        Word::GivenInstruction => "Instruction of the owner and the residents",
        Word::GivenKeys => "Keys and tags, counted",
        Word::GivenManuals => "Manuals of all devices",
        Word::GivenPack => "This pack",
        Word::GivenPrivacy => "Notice on cameras and data protection",
        Word::GivenSpares => "Spare parts",
        Word::GoesTo => "Other end",
        Word::HandOver => "Fill in the handover record together with the owner.",
        Word::HandoverDoors => "Release and escape agreed with the responsible person",
        Word::HandoverGiven => "Handed over",
        Word::HandoverNote => {
            "This record says what was tested and handed over. It is not a certificate of compliance."
        }
        Word::HandoverSigned => "Signed",
        Word::HandoverSystem => "The system",
        Word::HandoverTested => "Tested",
        Word::HandoverTitle => "Handover record",
        Word::HasJoints => "has joints on the way",
        Word::Heat => "Heat in the cupboard",
        Word::Highest => "Highest",
        Word::HighestVoltage => "Highest voltage",
        Word::HoldTime => "Release time",
        Word::Holds => "Holds",
        Word::InHandNote => {
            "Stations in hand: further stations of the last one's model that the end of the run could carry, as far as voltage, current and datasheet counts tell. An estimate: the proof is to add them and check again."
        }
        Word::InHandTitle => "What is in hand",
        Word::InTheWalls => "in the walls already",
        Word::IndoorStation => "Indoor station",
        Word::Indoors => "indoors",
        Word::InputHash => "SHA-256 of the input",
        Word::Inputs => "Inputs",
        Word::InstallerName => "Installer",
        Word::IsolateMains => "Isolate from the mains and secure against switching on.",
        Word::Item => "Item",
        Word::JumperFitted => "fitted",
        Word::JumperOpen => "open",
        Word::Keypad => "keypad",
        Word::Kind => "Kind",
        Word::KindSmall => "Small part",
        Word::LabelConvention => {
            "Both ends carry the designation of the cable, then this end, then the other one: device, colon, terminal (in the manner of IEC 81346 and IEC 61666)."
        }
        Word::LabelFrom => "Label at this end",
        Word::LabelTo => "Label at the far end",
        Word::LargestCurrent => "Largest current",
        Word::LargestPower => "Largest power",
        Word::LatchedAtPowerUp => {
            "Settings are read at power-up only: switch the bus off and on after a change."
        }
        Word::LeastMargin => "Least margin to a limit",
        Word::LeaveTidy => "Close the boxes, tidy the cables, take the rubbish along.",
        Word::LedNote => {
            "Currents are those of standby by day, all devices beyond the run booted and nobody calling; wait until the reading stands still."
        }
        Word::LeftOnDrum => "Left on drum",
        Word::Leg => "Leg",
        Word::LegsConvention => {
            "Legs are kept apart as + and − throughout, also where a device works either way round."
        }
        Word::Length => "Length",
        Word::Limit => "Limit",
        Word::LimitThere => "Limit there",
        Word::Line => "No.",
        Word::LinePrice => "Price",
        Word::LiveNote => {
            "Work from top to bottom. A reading outside its range is looked into before the next step."
        }
        Word::LiveTitle => "Commissioning with power",
        Word::LoadingMargin => "Loading margin",
        Word::LoadingMarginMeaning => {
            "factor by which all loads could grow before there is no operating point"
        }
        Word::Lock => "Lock",
        Word::LockCableNotStated => "cable of the lock is not stated in the plan",
        Word::LockSupplyPart => "Supply of a lock's own",
        Word::LockVoltage => "Voltage at the lock while it is energised",
        Word::LockWithoutPower => "Without power the lock does what the door sheet says.",
        Word::LoopResistance => "Loop resistance",
        Word::Lowest => "Lowest",
        Word::LowestVoltage => "Lowest voltage",
        Word::Magnet => "holding magnet",
        Word::MainsCurrent => "Mains current",
        Word::ManagementStation => "Management station",
        Word::ManagementStations => "Management stations",
        Word::Margin => "Margin",
        Word::MeasureLockLoop => "Loop resistance of the cable, short-circuited at the lock",
        Word::MechanicalEscape => "Mechanical means of escape",
        Word::Mind => "Mind",
        Word::Model => "Model",
        Word::Module => "Module",
        Word::MotorLock => "motor lock",
        Word::MountAndWire => "Mount; wire by the wiring schedule; pull at every conductor.",
        Word::NameOnPanel => "Name on the panel",
        Word::NamesModule => "names",
        Word::NamesPrivacy => "Ask the owner which names may be shown; numbers do as well.",
        Word::NamesTitle => "Name lists of panels and directories",
        Word::Needed => "Needed",
        Word::NeverCutInTwo => "No length between two terminals is cut in two: no joints are added.",
        Word::NewCable => "New cable",
        Word::NewName => "Name wanted",
        Word::No => "no",
        Word::NoAddress => "has no address",
        Word::NoBattery => "none: everything stops with the mains",
        Word::NoOperatingPoint => "no operating point",
        Word::NoPlace => "Without a place in the plan",
        Word::NoShortAtOutput => "No short circuit between + and − of the runs, and none to earth.",
        Word::Nobody => "nobody",
        Word::NobodyCalls => "No entrance calls this station: see the snag list.",
        Word::NominalVoltage => "Nominal voltage",
        Word::NormallyClosed => "common and normally closed",
        Word::NormallyOpen => "common and normally open",
        Word::NotInCatalogue => "not in the catalogue: to be chosen",
        Word::NotJudged => "not judged",
        Word::NotStated => "not stated",
        Word::NotStatedNone => "not stated (counts as no)",
        Word::NotStatedDefault => "not stated; default",
        Word::NoteVersions => "Write the versions of all devices into the handover record.",
        Word::Nothing => "nothing",
        Word::NothingLeadsHere => "nothing leads here",
        Word::Number => "No.",
        Word::OhmmeterNote => {
            "Ohmmeters do not see through the bridge of a station: disconnect the electronics, join the loop-through terminals, and short the far end for a loop reading. Ranges: coldest to hottest conductor, all tolerances; take off the resistance of the test leads."
        }
        Word::OpenCircuitVoltage => "Voltage at the output, nothing connected",
        Word::OpensLocks => "Opens (after a call)",
        Word::OpensMeaning => "A station opens the locks of the entrance that called it.",
        Word::OrderedInDrums => "ordered as the cut list says; the rest is left over",
        Word::Outdoors => "outdoors",
        Word::OutputPower => "Largest output power",
        Word::OwnerName => "Owner or manager",
        Word::Pair => "Pair",
        Word::PairsSpare => "Pairs spare",
        Word::PairsUsed => "Pairs used",
        Word::Panel => "Panel",
        Word::PartsTitle => "Parts list",
        Word::Place => "Place",
        Word::PowerFrom => "Power",
        Word::PowerInHand => "Power in hand",
        Word::ProveDead => "Prove dead at the terminals.",
        Word::Quantity => "Quantity",
        Word::Reader => "reader",
        Word::Reading => "Reading",
        Word::RechargeHours => "Hours to recharge",
        Word::Reference => "Reference designation",
        Word::RelayContactItem => "Relay wired",
        Word::RelayNormallyClosed => "relay common, normally closed",
        Word::RelayNormallyOpen => "relay common, normally open",
        Word::RelayOnSecureSide => "Relay on the secure side",
        Word::ReleaseAndVolume => {
            "The release opens the door; volume and ringing tone set as the resident likes."
        }
        Word::Remark => "Remark",
        Word::Result => "Result",
        Word::Revision => "Revision",
        Word::Rows => "Rows",
        Word::RuleToLookAt => "Rule to look at",
        Word::Run => "Run",
        Word::RunWithoutSupply => "No supply reaches this run: see the snag list.",
        Word::Runs => "Runs",
        Word::RunsWhere => "Runs",
        Word::ScreenConvention => {
            "Screened cable: join the screen at the end nearer to the supply, insulate it at the other (common practice)."
        }
        Word::Screened => "screened",
        Word::SearchBounded => "search not complete: the figures are the worst found",
        Word::SearchComplete => "search complete",
        Word::SetAsPlanned => "as planned",
        Word::SetClock => "Set date and time.",
        Word::SetInStation => "set in the door station, wins over the plan",
        Word::Settings => "Switch positions",
        Word::SeveralCables => "several cables side by side: pull and label each",
        Word::Sheet => "Sheet",
        Word::SignedInstaller => "Signature of the installer",
        Word::SignedOwner => "Signature of the owner or manager",
        Word::Site => "Site",
        Word::Snag => "What is wrong",
        Word::SnagsAccepted => "Accepted in the plan",
        Word::SnagsClosed => "Snag list closed",
        Word::SnagsFound => "Found by the check",
        Word::SnagsNote => {
            "Findings of the check that stand, what it could not judge, and room for what is found on site."
        }
        Word::SnagsOnSite => "Found on site",
        Word::SnagsTitle => "Snag list",
        Word::Source => "Source",
        Word::SourceBound => {
            "Kirchhoff's voltage law; a lower bound (resistive loads are taken at their highest current)"
        }
        Word::SourceKirchhoff => "Kirchhoff's voltage law, Ohm's law; loop is both conductors",
        Word::SourceMeasured => "loop measured on site, shared out by length, k its error",
        Word::SourceVoltage => "Lowest voltage of the source",
        Word::Spares => "Spares",
        Word::StageBatteries => "K. Batteries",
        Word::StageCheck => "D. Check before power",
        Word::StageDeviceList => "H. Device list",
        Word::StageDoors => "J. Doors and locks",
        Word::StageFinish => "L. Finish",
        Word::StageFirstStart => "G. First start",
        Word::StageIsolate => "A. Isolate and prove dead",
        Word::StagePowerUp => "E. Power up, run by run",
        Word::StageReadings => "F. Readings with everything connected",
        Word::StageSet => "C. Set",
        Word::StageStations => "I. Every station: voltage, call, picture, speech, release, volume",
        Word::StageWire => "B. Wire",
        Word::StandbyHighest => "Standby highest",
        Word::StandbyLowest => "Standby lowest",
        Word::StandbyMeaning => "Standby: by day, everything connected and booted, nobody calling.",
        Word::StandbyNominal => "Standby nominal",
        Word::StandbyVoltageHere => "Voltage at the terminals in standby",
        Word::State => "State",
        Word::StateAllCall => "all-call",
        Word::StateBatteryEnd => "at the battery's end voltage",
        Word::StateCall => "call",
        Word::StateFireRelease => "fire release",
        Word::StateLightLoad => "least load, highest supply voltage",
        Word::StatePowerReturn => "power return",
        Word::StateSelfView => "residents view a camera",
        Word::StateStandbyDay => "standby by day",
        Word::StateStandbyNight => "standby by night",
        Word::StatesSolved => "Operating states that were solved",
        Word::Stations => "Stations",
        Word::StationsInHand => "Stations in hand",
        Word::Step => "Step",
        Word::Strike => "strike",
        Word::SummaryTitle => "System summary",
        Word::Supplies => "Supplies",
        Word::SuppliesTitle => "Battery and supply sheet",
        Word::Supply => "Supply",
        Word::SurgeProtectorHere => "surge protector in the line here",
        Word::SurgeProtectorInRun => "surge protector in this run",
        Word::SymbolsNote => {
            "Symbols: r ohm per metre of one conductor when hot, L length, a and b tolerances of length and resistance, j ohm per joint, n joints, p pairs in parallel, s and e ohm of surge protection, ΣL length of the whole run, k error of a measured loop, t tolerance of the source."
        }
        Word::Terminal => "Terminal",
        Word::TerminatorHere => "terminator set here",
        Word::TerminatorPart => "Terminator of the family",
        Word::TestedBattery => "Battery takes over",
        Word::TestedDoors => "Every lock releases, and shuts again",
        Word::TestedEscape => "Escape with the system off",
        Word::TestedFire => "Fire interlock, with the responsible person",
        Word::TestedReadings => "All readings within their ranges",
        Word::TestedStations => "Call, picture, speech and release at every station",
        Word::Title => "Title",
        Word::To => "To",
        Word::ToOrder => "To order",
        Word::Total => "Total",
        Word::TryExitButton => "The exit button opens.",
        Word::UnitPrice => "Unit price",
        Word::Value => "Value",
        Word::VaristorPart => "Varistor",
        Word::Verdict => "Verdict",
        Word::VerdictAssumed => "holds, on assumed values",
        Word::VerdictFails => "fails",
        Word::VerdictFailsAsAccepted => "fails, with every error accepted",
        Word::VerdictHolds => "holds in every state that was solved",
        Word::VerdictNotJudged => "nothing failed, but not everything could be judged",
        Word::VideoDoorStation => "Door station, video",
        Word::VideoExtension => "Indoor station, video, extension",
        Word::VideoStation => "Indoor station, video",
        Word::Voltage => "Voltage",
        Word::VoltageAtTerminals => "Voltage at the terminals",
        Word::VoltageNotNeeded => "none to judge: the drive has power of its own",
        Word::VoltagesTitle => "Expected voltages",
        Word::WaitForBoot => "Wait until every device has booted.",
        Word::Warning => "warning",
        Word::What => "What",
        Word::WhatIsThere => "What is there",
        Word::WhatToDo => "What to do",
        Word::Where => "Where",
        Word::WhileReleased => "while released",
        Word::WhileShut => "while shut",
        Word::WholeCurrent => "Current of the whole supply in standby",
        Word::WiringInSeries => "Wired in series",
        Word::WiringTitle => "Wiring schedule, terminal by terminal",
        Word::WithoutPower => "Without power",
        Word::WorstDevice => "Worst device",
        Word::WorstLowest => "Lowest there",
        Word::WorstNominal => "Nominal there",
        Word::WorstState => "Worst state",
        Word::Yes => "yes",
    }
}

/// A sentence with its arguments.
pub(crate) fn sentence(sentence: &Sentence<'_>) -> String {
    match *sentence {
        Sentence::AllowedRange { least, most } => format!("allowed: {least} to {most}"),
        Sentence::AtLeast { value } => format!("at least {value}"),
        Sentence::AtMost { value } => format!("at most {value}"),
        Sentence::AtMostAtAStretch { time } => format!("at most {time} at a stretch"),
        Sentence::BatteryCarries { hours } => format!(
            "The battery carries the system for at least {hours} in standby; nothing to wait for today."
        ),
        Sentence::CallAudio { caller } => {
            format!("Call from {caller}: it rings; speech is clear both ways. Voltage while talking:")
        }
        Sentence::CallAudioExtension { caller } => format!(
            "Call from {caller}: it rings with the main station; answer here, speech is clear both ways. Voltage while talking:"
        ),
        Sentence::CallReleasing { from, to } => format!("{from} talks with {to}, lock released"),
        Sentence::CallRinging { from, to } => format!("{from} rings {to}"),
        Sentence::CallTalking { from, to } => format!("{from} talks with {to}"),
        Sentence::CallVideo { caller } => format!(
            "Call from {caller}: it rings; the picture is steady; speech is clear both ways. Voltage while talking:"
        ),
        Sentence::CallVideoExtension { caller } => format!(
            "Call from {caller}: it rings with the main station; answer here: picture is steady, speech is clear both ways. Voltage while talking:"
        ),
        Sentence::CallViewing { from, to } => format!("{to} views {from}"),
        Sentence::CallsStanding { count } => format!("calls at once: {count}"),
        Sentence::ConnectFeeder { run } => format!(
            "Connect run {run}; what it leads to has power. Its current is read later, with everything beyond it."
        ),
        Sentence::ConnectRun { run, from } => format!("Connect run {run}; current at {from}"),
        Sentence::ContactNeeded { contact } => format!("this lock needs: {contact}"),
        Sentence::CutAllowance { tolerance, ends } => format!(
            "Cut to: the stated length, {tolerance} more for its tolerance, and {ends} at each end for making off, rounded up to 0.1 m."
        ),
        Sentence::CutByTheMetre { name, needed } => {
            format!("{name}: {needed}, bought to length (the catalogue states no drum lengths)")
        }
        Sentence::CutProved { name, drums, needed, bought, waste } => {
            format!("{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; proved least")
        }
        Sentence::CutTooLong { name, needed, piece, longest } => format!(
            "{name}: {needed}, order to length: a piece of {piece} is longer than the longest drum of {longest}"
        ),
        Sentence::CutWithBound { name, drums, needed, bought, waste, bound } => format!(
            "{name}: {drums}; needed {needed}, bought {bought}, left over {waste}; no plan buys less than {bound}"
        ),
        Sentence::DoorAgreed { door } => {
            format!("{door}: release, escape and fire interlock agreed with (name)")
        }
        Sentence::DropInSection { section } => format!("Drop on {section}"),
        Sentence::ErrorsShort { count } => format!("{count} ERRORS"),
        Sentence::FeederCurrent { run } => format!("Current of {run} with everything beyond it"),
        Sentence::FreePort { port } => format!("port {port} is free"),
        Sentence::HeightRange { least, most, source } => format!("published: {least} to {most} ({source})"),
        Sentence::LinesWithoutPrice { count } => {
            format!("Lines without a price: {count}. The total leaves them out.")
        }
        Sentence::LockCalculation { door, number } => format!("{door}: lock {number}"),
        Sentence::MeasureInsulation { least } => format!(
            "Insulation between the conductors and to earth, electronics disconnected, as the cable allows: at least {least} Mohm. Reading:"
        ),
        Sentence::MeasureLoop { from, end } => {
            format!("Loop resistance from {from}, far end {end} short-circuited")
        }
        Sentence::ModuleCurrent { day, night } => format!("{day} by day, {night} by night"),
        Sentence::Needs { what } => format!("needs {what}"),
        Sentence::Origin { site, revision, date, hash } => {
            format!("{site} · revision {revision} · {date} · input SHA-256 {hash}")
        }
        Sentence::OriginUndated { site, revision, hash } => {
            format!("{site} · revision {revision} · input SHA-256 {hash}")
        }
        Sentence::PricesIn { currency } => format!("Prices in {currency}, without tax and labour."),
        Sentence::PullAndLabel { from, to } => format!("Pull from {from} to {to}; label both ends."),
        Sentence::ReleaseTime { time } => format!("Release time: set to {time}. Measured:"),
        Sentence::SetAddress { address, settings } => format!("Set {address}: {settings}"),
        Sentence::SetVoltage { voltage } => format!("Set the output to {voltage}."),
        Sentence::SetsSolved { solved, of } => format!("sets of calls solved: {solved} of {of}"),
        Sentence::SiteHasErrors { count } => {
            format!("THIS SITE HAS ERRORS ({count}): DO NOT BUILD FROM THIS SHEET. See the snag list.")
        }
        Sentence::SpareRule { from, of } => format!(
            "Spares: one station for every {of} of a model begun, from {from} on (common practice). Cable: what is left of the drums."
        ),
        Sentence::SumOfDrops { source, drops } => format!("U₀ = {source}, Σ R I = {drops}"),
        Sentence::SupplyCalculation { supply } => format!("{supply}: battery, mains, heat"),
        Sentence::SurgeProtector { resistance } => format!("Surge protector, {resistance} in the loop"),
        Sentence::TryModule { module } => format!("{module} works and opens what it should."),
        Sentence::VoltageAtEnd { run } => format!("Voltage at the end of {run}"),
        Sentence::VoltageCalculation { device, source, state } => format!("{device} on {source}: {state}"),
    }
}
