//! Every word and sentence of the pack as a typed message; one module per language says them.
//!
//! A language is complete when it compiles: each module matches every message.

pub(crate) mod english;
mod findings_german;
mod foreign_german;
pub(crate) mod german;
mod states;

/// A word or sentence without arguments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Word {
    /// About
    About,
    /// accepted
    Accepted,
    /// Accessory
    Accessory,
    /// Across the relay's contact
    AcrossContact,
    /// Across the lock
    AcrossLock,
    /// Address
    Address,
    /// no address: see the snag list
    AddressMissing,
    /// advice
    Advice,
    /// after ageing and temperature
    AgeingRemark,
    /// Take every run off the outputs, switch the mains on.
    AllRunsOff,
    /// alternating current
    AlternatingCurrent,
    /// Ambient temperature
    Ambient,
    /// Rests on an assumed value
    AssumedValue,
    /// Door station, audio
    AudioDoorStation,
    /// Indoor station, audio, extension
    AudioExtension,
    /// Indoor station, audio
    AudioStation,
    /// Battery
    Battery,
    /// Capacity of the battery
    BatteryCapacity,
    /// Hours on battery
    BatteryHours,
    /// Switch the mains off: the system stays on. Switch it on again.
    BatteryTakesOver,
    /// Voltage of the battery
    BatteryVoltage,
    /// Nothing is under power on this sheet. Work from top to bottom.
    BeforePowerNote,
    /// Commissioning before power
    BeforePowerTitle,
    /// shares its route with mains: separate it
    BesideMains,
    /// Distributor or branch box
    BoxKind,
    /// Branch box
    BranchBox,
    /// Branch boxes
    BranchBoxes,
    /// Buildings
    Buildings,
    /// in the ground
    Buried,
    /// not judged: the bus has no operating point there
    BusCollapses,
    /// buttons
    Buttons,
    /// By
    By,
    /// Cable
    Cable,
    /// Cable
    CableEnd,
    /// Cable type
    CableType,
    /// Cable list
    CablesTitle,
    /// Worst device of every supply in its worst state, every tolerance against it; then every lock; then every supply.
    CalculationsNote,
    /// Calculation sheets
    CalculationsTitle,
    /// Called
    Called,
    /// Can be called from
    CalledFrom,
    /// Who calls whom
    CallsTitle,
    /// Capacity that is counted on
    CapacityCountedOn,
    /// Keep extra-low voltage apart from mains, in cable routes and in boxes.
    CautionApart,
    /// Some figures rest on assumed values.
    CautionAssumed,
    /// Local codes prevail over this pack.
    CautionCodes,
    /// Mind the polarity of the diode; never on alternating current.
    CautionDiode,
    /// The safety devices of the drive are another trade's work; a contact must not bypass them.
    CautionDrive,
    /// Release on escape routes and the fire interlock are decided by the responsible person.
    CautionEscape,
    /// Isolate and prove dead before wiring.
    CautionIsolate,
    /// Work on mains is done by licensed people only.
    CautionMains,
    /// This is a calculation and a plan, not a certificate of compliance.
    CautionNoCertificate,
    /// The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it.
    CautionOpens,
    /// Mount the relay on the secure side of the door.
    CautionSecureSide,
    /// The way out must work without the bus and without the door station.
    CautionWayOut,
    /// Cautions
    Cautions,
    /// Change every factory code and password. Do not write the new ones on this sheet.
    ChangeCredentials,
    /// Charging current
    ChargeCurrent,
    /// Power for charging
    ChargingPower,
    /// what the load leaves of the rated power
    ChargingWaits,
    /// Suppressor diode (clamp)
    ClampPart,
    /// Colour
    Colour,
    /// Colours by IEC 60757, by convention: two-core flexible BN/BU (HD 308 S2), four pairs AWG as ANSI/TIA-568, else WH BN, GN YE, GY PK, BU RD, BK VT (DIN 47100). If the cable has others, write down what was used.
    ColourConvention,
    /// Have the system list its devices; hold the list against the device schedule: none missing, none unexpected, none twice.
    CompareDeviceList,
    /// Conductor
    ConductorSize,
    /// Contents
    Contents,
    /// Pack
    ContentsTitle,
    /// rated for continuous duty
    ContinuousDuty,
    /// Height of the controls
    ControlHeight,
    /// Lowest and highest: the nominal calculation repeated with every tolerance (supply, cable, length, temperature, loads) against the voltage, then with every tolerance for it.
    CornersMeaning,
    /// Current
    Current,
    /// Current in hand
    CurrentInHand,
    /// Kind of current
    CurrentKind,
    /// Proved least: the drums bought equal a lower bound (their total holds every piece; or the dual of the Gilmore-Gomory program, its prices checked by an integer knapsack), so no cutting plan buys less.
    CutBoundMeaning,
    /// Cut to
    CutLength,
    /// Cut list
    CutListTitle,
    /// Date mended
    DateDone,
    /// Date
    DateWord,
    /// Delayed egress
    DelayedEgress,
    /// Designation
    Designation,
    /// Device
    Device,
    /// Device schedule, in walking order
    DevicesTitle,
    /// Diode, cathode to plus
    DiodePart,
    /// direct current
    DirectCurrent,
    /// Disconnect the battery.
    DisconnectBattery,
    /// Distributor
    Distributor,
    /// Distributors
    Distributors,
    /// Done
    Done,
    /// Door
    Door,
    /// Door contact
    DoorContactPart,
    /// Door station
    DoorStation,
    /// Door sheets
    DoorsTitle,
    /// Drawings are lettered in English.
    DrawingLanguage,
    /// input of the drive
    DriveInput,
    /// Drop inside a box, input to port
    DropInBox,
    /// Drop inside the source
    DropInSource,
    /// Drum
    Drum,
    /// Length of drum
    DrumLength,
    /// Dwelling
    Dwelling,
    /// Dwellings
    Dwellings,
    /// direct or alternating current
    EitherCurrent,
    /// emergency release (normally closed)
    EmergencyReleaseClosed,
    /// Emergency release
    EmergencyReleasePart,
    /// end of the chain, stays empty
    EndOfChain,
    /// Energised
    Energised,
    /// Entrances
    Entrances,
    /// error
    Error,
    /// Escape route
    EscapeRoute,
    /// With the system off, the door opens from inside with one action, without a key.
    EscapeWithoutSystem,
    /// Cable in the walls already
    ExistingCable,
    /// existing cable: write down the colour found
    ExistingColours,
    /// exit button (normally closed)
    ExitButtonNormallyClosed,
    /// exit button (normally open)
    ExitButtonNormallyOpen,
    /// Exit button
    ExitButtonPart,
    /// Expected
    ExpectedValue,
    /// opens without power (fail-safe)
    FailSafe,
    /// stays shut without power (fail-secure)
    FailSecure,
    /// Family of parts
    Family,
    /// from the bus through the relay
    FeedBus,
    /// has power of its own, takes a dry contact
    FeedDryContact,
    /// feed −
    FeedMinus,
    /// from a supply of its own through the relay
    FeedOwnSupply,
    /// feed +
    FeedPlus,
    /// from the door station's lock output
    FeedStation,
    /// building
    FieldBuilding,
    /// dwelling
    FieldDwelling,
    /// entrance
    FieldEntrance,
    /// extension
    FieldExtension,
    /// management
    FieldManagement,
    /// fire alarm contact (normally closed)
    FireContactClosed,
    /// Fire interlock
    FireInterlock,
    /// With the responsible person: the fire alarm's contact releases the door.
    FireInterlockTest,
    /// For
    For,
    /// Formula
    Formula,
    /// free
    Free,
    /// Free ports
    FreePorts,
    /// From
    From,
    /// gate drive
    GateDrive,
    /// As-built drawings and readings
    GivenAsBuilt,
    /// Credentials, sealed, to the owner in person
    GivenCredentials,
    /// Instruction of the owner and the residents
    GivenInstruction,
    /// Keys and tags, counted
    GivenKeys,
    /// Manuals of all devices
    GivenManuals,
    /// This pack
    GivenPack,
    /// Notice on cameras and data protection
    GivenPrivacy,
    /// Spare parts
    GivenSpares,
    /// Other end
    GoesTo,
    /// Fill in the handover record together with the owner.
    HandOver,
    /// Release and escape agreed with the responsible person
    HandoverDoors,
    /// Handed over
    HandoverGiven,
    /// This record says what was tested and handed over. It is not a certificate of compliance.
    HandoverNote,
    /// Signed
    HandoverSigned,
    /// The system
    HandoverSystem,
    /// Tested
    HandoverTested,
    /// Handover record
    HandoverTitle,
    /// has joints on the way
    HasJoints,
    /// Heat in the cupboard
    Heat,
    /// Highest
    Highest,
    /// Highest voltage
    HighestVoltage,
    /// Release time
    HoldTime,
    /// Holds
    Holds,
    /// Stations in hand: further stations of the last one's model that the end of the run could carry, as far as voltage, current and datasheet counts tell. An estimate: the proof is to add them and check again.
    InHandNote,
    /// What is in hand
    InHandTitle,
    /// in the walls already
    InTheWalls,
    /// Indoor station
    IndoorStation,
    /// indoors
    Indoors,
    /// SHA-256 of the input
    InputHash,
    /// Inputs
    Inputs,
    /// Installer
    InstallerName,
    /// Isolate from the mains and secure against switching on.
    IsolateMains,
    /// Item
    Item,
    /// fitted
    JumperFitted,
    /// open
    JumperOpen,
    /// keypad
    Keypad,
    /// Kind
    Kind,
    /// Small part
    KindSmall,
    /// Both ends carry the designation of the cable, then this end, then the other one: device, colon, terminal (in the manner of IEC 81346 and IEC 61666).
    LabelConvention,
    /// Label at this end
    LabelFrom,
    /// Label at the far end
    LabelTo,
    /// Largest current
    LargestCurrent,
    /// Largest power
    LargestPower,
    /// Settings are read at power-up only: switch the bus off and on after a change.
    LatchedAtPowerUp,
    /// Least margin to a limit
    LeastMargin,
    /// Close the boxes, tidy the cables, take the rubbish along.
    LeaveTidy,
    /// Currents are those of standby by day, all devices beyond the run booted and nobody calling; wait until the reading stands still.
    LedNote,
    /// Left on drum
    LeftOnDrum,
    /// Leg
    Leg,
    /// Legs are kept apart as + and − throughout, also where a device works either way round.
    LegsConvention,
    /// Length
    Length,
    /// Limit
    Limit,
    /// Limit there
    LimitThere,
    /// No.
    Line,
    /// Price
    LinePrice,
    /// Work from top to bottom. A reading outside its range is looked into before the next step.
    LiveNote,
    /// Commissioning with power
    LiveTitle,
    /// Loading margin
    LoadingMargin,
    /// factor by which all loads could grow before there is no operating point
    LoadingMarginMeaning,
    /// Lock
    Lock,
    /// cable of the lock is not stated in the plan
    LockCableNotStated,
    /// Supply of a lock's own
    LockSupplyPart,
    /// Voltage at the lock while it is energised
    LockVoltage,
    /// Without power the lock does what the door sheet says.
    LockWithoutPower,
    /// Loop resistance
    LoopResistance,
    /// Lowest
    Lowest,
    /// Lowest voltage
    LowestVoltage,
    /// holding magnet
    Magnet,
    /// Mains current
    MainsCurrent,
    /// Management station
    ManagementStation,
    /// Management stations
    ManagementStations,
    /// Margin
    Margin,
    /// Loop resistance of the cable, short-circuited at the lock
    MeasureLockLoop,
    /// Mechanical means of escape
    MechanicalEscape,
    /// Mind
    Mind,
    /// Model
    Model,
    /// Module
    Module,
    /// motor lock
    MotorLock,
    /// Mount; wire by the wiring schedule; pull at every conductor.
    MountAndWire,
    /// Name on the panel
    NameOnPanel,
    /// names
    NamesModule,
    /// Ask the owner which names may be shown; numbers do as well.
    NamesPrivacy,
    /// Name lists of panels and directories
    NamesTitle,
    /// Needed
    Needed,
    /// No length between two terminals is cut in two: no joints are added.
    NeverCutInTwo,
    /// New cable
    NewCable,
    /// Name wanted
    NewName,
    /// no
    No,
    /// has no address
    NoAddress,
    /// none: everything stops with the mains
    NoBattery,
    /// no operating point
    NoOperatingPoint,
    /// Without a place in the plan
    NoPlace,
    /// No short circuit between + and − of the runs, and none to earth.
    NoShortAtOutput,
    /// nobody
    Nobody,
    /// No entrance calls this station: see the snag list.
    NobodyCalls,
    /// Nominal voltage
    NominalVoltage,
    /// common and normally closed
    NormallyClosed,
    /// common and normally open
    NormallyOpen,
    /// not in the catalogue: to be chosen
    NotInCatalogue,
    /// not judged
    NotJudged,
    /// not stated
    NotStated,
    /// not stated (counts as no)
    NotStatedNone,
    /// not stated; default
    NotStatedDefault,
    /// Write the versions of all devices into the handover record.
    NoteVersions,
    /// nothing
    Nothing,
    /// nothing leads here
    NothingLeadsHere,
    /// No.
    Number,
    /// Ohmmeters do not see through the bridge of a station: disconnect the electronics, join the loop-through terminals, and short the far end for a loop reading. Ranges: coldest to hottest conductor, all tolerances; take off the resistance of the test leads.
    OhmmeterNote,
    /// Voltage at the output, nothing connected
    OpenCircuitVoltage,
    /// Opens (after a call)
    OpensLocks,
    /// A station opens the locks of the entrance that called it.
    OpensMeaning,
    /// ordered as the cut list says; the rest is left over
    OrderedInDrums,
    /// outdoors
    Outdoors,
    /// Largest output power
    OutputPower,
    /// Owner or manager
    OwnerName,
    /// Pair
    Pair,
    /// Pairs spare
    PairsSpare,
    /// Pairs used
    PairsUsed,
    /// Panel
    Panel,
    /// Parts list
    PartsTitle,
    /// Place
    Place,
    /// Power
    PowerFrom,
    /// Power in hand
    PowerInHand,
    /// Prove dead at the terminals.
    ProveDead,
    /// Quantity
    Quantity,
    /// reader
    Reader,
    /// Reading
    Reading,
    /// Hours to recharge
    RechargeHours,
    /// Reference designation
    Reference,
    /// Relay wired
    RelayContactItem,
    /// relay common, normally closed
    RelayNormallyClosed,
    /// relay common, normally open
    RelayNormallyOpen,
    /// Relay on the secure side
    RelayOnSecureSide,
    /// The release opens the door; volume and ringing tone set as the resident likes.
    ReleaseAndVolume,
    /// Remark
    Remark,
    /// Result
    Result,
    /// Revision
    Revision,
    /// Rows
    Rows,
    /// Rule to look at
    RuleToLookAt,
    /// Run
    Run,
    /// No supply reaches this run: see the snag list.
    RunWithoutSupply,
    /// Runs
    Runs,
    /// Runs
    RunsWhere,
    /// Screened cable: join the screen at the end nearer to the supply, insulate it at the other (common practice).
    ScreenConvention,
    /// screened
    Screened,
    /// search not complete: the figures are the worst found
    SearchBounded,
    /// search complete
    SearchComplete,
    /// as planned
    SetAsPlanned,
    /// Set date and time.
    SetClock,
    /// set in the door station, wins over the plan
    SetInStation,
    /// Switch positions
    Settings,
    /// several cables side by side: pull and label each
    SeveralCables,
    /// Sheet
    Sheet,
    /// Signature of the installer
    SignedInstaller,
    /// Signature of the owner or manager
    SignedOwner,
    /// Site
    Site,
    /// What is wrong
    Snag,
    /// Accepted in the plan
    SnagsAccepted,
    /// Snag list closed
    SnagsClosed,
    /// Found by the check
    SnagsFound,
    /// Findings of the check that stand, what it could not judge, and room for what is found on site.
    SnagsNote,
    /// Found on site
    SnagsOnSite,
    /// Snag list
    SnagsTitle,
    /// Source
    Source,
    /// Kirchhoff's voltage law; a lower bound (resistive loads are taken at their highest current)
    SourceBound,
    /// Kirchhoff's voltage law, Ohm's law; loop is both conductors
    SourceKirchhoff,
    /// loop measured on site, shared out by length, k its error
    SourceMeasured,
    /// Lowest voltage of the source
    SourceVoltage,
    /// Spares
    Spares,
    /// K. Batteries
    StageBatteries,
    /// D. Check before power
    StageCheck,
    /// H. Device list
    StageDeviceList,
    /// J. Doors and locks
    StageDoors,
    /// L. Finish
    StageFinish,
    /// G. First start
    StageFirstStart,
    /// A. Isolate and prove dead
    StageIsolate,
    /// E. Power up, run by run
    StagePowerUp,
    /// F. Readings with everything connected
    StageReadings,
    /// C. Set
    StageSet,
    /// I. Every station: voltage, call, picture, speech, release, volume
    StageStations,
    /// B. Wire
    StageWire,
    /// Standby highest
    StandbyHighest,
    /// Standby lowest
    StandbyLowest,
    /// Standby: by day, everything connected and booted, nobody calling.
    StandbyMeaning,
    /// Standby nominal
    StandbyNominal,
    /// Voltage at the terminals in standby
    StandbyVoltageHere,
    /// State
    State,
    /// all-call
    StateAllCall,
    /// at the battery's end voltage
    StateBatteryEnd,
    /// call
    StateCall,
    /// fire release
    StateFireRelease,
    /// least load, highest supply voltage
    StateLightLoad,
    /// power return
    StatePowerReturn,
    /// residents view a camera
    StateSelfView,
    /// standby by day
    StateStandbyDay,
    /// standby by night
    StateStandbyNight,
    /// Operating states that were solved
    StatesSolved,
    /// Stations
    Stations,
    /// Stations in hand
    StationsInHand,
    /// Step
    Step,
    /// strike
    Strike,
    /// System summary
    SummaryTitle,
    /// Supplies
    Supplies,
    /// Battery and supply sheet
    SuppliesTitle,
    /// Supply
    Supply,
    /// surge protector in the line here
    SurgeProtectorHere,
    /// surge protector in this run
    SurgeProtectorInRun,
    /// Symbols: r ohm per metre of one conductor when hot, L length, a and b tolerances of length and resistance, j ohm per joint, n joints, p pairs in parallel, s and e ohm of surge protection, ΣL length of the whole run, k error of a measured loop, t tolerance of the source.
    SymbolsNote,
    /// Terminal
    Terminal,
    /// terminator set here
    TerminatorHere,
    /// Terminator of the family
    TerminatorPart,
    /// Battery takes over
    TestedBattery,
    /// Every lock releases, and shuts again
    TestedDoors,
    /// Escape with the system off
    TestedEscape,
    /// Fire interlock, with the responsible person
    TestedFire,
    /// All readings within their ranges
    TestedReadings,
    /// Call, picture, speech and release at every station
    TestedStations,
    /// Title
    Title,
    /// To
    To,
    /// To order
    ToOrder,
    /// Total
    Total,
    /// The exit button opens.
    TryExitButton,
    /// Unit price
    UnitPrice,
    /// Value
    Value,
    /// Varistor
    VaristorPart,
    /// Verdict
    Verdict,
    /// holds, on assumed values
    VerdictAssumed,
    /// fails
    VerdictFails,
    /// fails, but every error is accepted
    VerdictFailsAsAccepted,
    /// holds in every state that was solved
    VerdictHolds,
    /// nothing failed, but not everything could be judged
    VerdictNotJudged,
    /// Door station, video
    VideoDoorStation,
    /// Indoor station, video, extension
    VideoExtension,
    /// Indoor station, video
    VideoStation,
    /// Voltage
    Voltage,
    /// Voltage at the terminals
    VoltageAtTerminals,
    /// none to judge: the drive has power of its own
    VoltageNotNeeded,
    /// Expected voltages
    VoltagesTitle,
    /// Wait until every device has booted.
    WaitForBoot,
    /// warning
    Warning,
    /// What
    What,
    /// What is there
    WhatIsThere,
    /// What to do
    WhatToDo,
    /// Where
    Where,
    /// while released
    WhileReleased,
    /// while shut
    WhileShut,
    /// Current of the whole supply in standby
    WholeCurrent,
    /// Wired in series
    WiringInSeries,
    /// Wiring schedule, terminal by terminal
    WiringTitle,
    /// Without power
    WithoutPower,
    /// Worst device
    WorstDevice,
    /// Lowest there
    WorstLowest,
    /// Nominal there
    WorstNominal,
    /// Worst state
    WorstState,
    /// yes
    Yes,
}

impl Word {
    /// Every word.
    #[cfg(test)]
    pub(crate) const ALL: &'static [Word] = &[
        Word::About,
        Word::Accepted,
        Word::Accessory,
        Word::AcrossContact,
        Word::AcrossLock,
        Word::Address,
        Word::AddressMissing,
        Word::Advice,
        Word::AgeingRemark,
        Word::AllRunsOff,
        Word::AlternatingCurrent,
        Word::Ambient,
        Word::AssumedValue,
        Word::AudioDoorStation,
        Word::AudioExtension,
        Word::AudioStation,
        Word::Battery,
        Word::BatteryCapacity,
        Word::BatteryHours,
        Word::BatteryTakesOver,
        Word::BatteryVoltage,
        Word::BeforePowerNote,
        Word::BeforePowerTitle,
        Word::BesideMains,
        Word::BoxKind,
        Word::BranchBox,
        Word::BranchBoxes,
        Word::Buildings,
        Word::Buried,
        Word::BusCollapses,
        Word::Buttons,
        Word::By,
        Word::Cable,
        Word::CableEnd,
        Word::CableType,
        Word::CablesTitle,
        Word::CalculationsNote,
        Word::CalculationsTitle,
        Word::Called,
        Word::CalledFrom,
        Word::CallsTitle,
        Word::CapacityCountedOn,
        Word::CautionApart,
        Word::CautionAssumed,
        Word::CautionCodes,
        Word::CautionDiode,
        Word::CautionDrive,
        Word::CautionEscape,
        Word::CautionIsolate,
        Word::CautionMains,
        Word::CautionNoCertificate,
        Word::CautionOpens,
        Word::CautionSecureSide,
        Word::CautionWayOut,
        Word::Cautions,
        Word::ChangeCredentials,
        Word::ChargeCurrent,
        Word::ChargingPower,
        Word::ChargingWaits,
        Word::ClampPart,
        Word::Colour,
        Word::ColourConvention,
        Word::CompareDeviceList,
        Word::ConductorSize,
        Word::Contents,
        Word::ContentsTitle,
        Word::ContinuousDuty,
        Word::ControlHeight,
        Word::CornersMeaning,
        Word::Current,
        Word::CurrentInHand,
        Word::CurrentKind,
        Word::CutBoundMeaning,
        Word::CutLength,
        Word::CutListTitle,
        Word::DateDone,
        Word::DateWord,
        Word::DelayedEgress,
        Word::Designation,
        Word::Device,
        Word::DevicesTitle,
        Word::DiodePart,
        Word::DirectCurrent,
        Word::DisconnectBattery,
        Word::Distributor,
        Word::Distributors,
        Word::Done,
        Word::Door,
        Word::DoorContactPart,
        Word::DoorStation,
        Word::DoorsTitle,
        Word::DrawingLanguage,
        Word::DriveInput,
        Word::DropInBox,
        Word::DropInSource,
        Word::Drum,
        Word::DrumLength,
        Word::Dwelling,
        Word::Dwellings,
        Word::EitherCurrent,
        Word::EmergencyReleaseClosed,
        Word::EmergencyReleasePart,
        Word::EndOfChain,
        Word::Energised,
        Word::Entrances,
        Word::Error,
        Word::EscapeRoute,
        Word::EscapeWithoutSystem,
        Word::ExistingCable,
        Word::ExistingColours,
        Word::ExitButtonNormallyClosed,
        Word::ExitButtonNormallyOpen,
        Word::ExitButtonPart,
        Word::ExpectedValue,
        Word::FailSafe,
        Word::FailSecure,
        Word::Family,
        Word::FeedBus,
        Word::FeedDryContact,
        Word::FeedMinus,
        Word::FeedOwnSupply,
        Word::FeedPlus,
        Word::FeedStation,
        Word::FieldBuilding,
        Word::FieldDwelling,
        Word::FieldEntrance,
        Word::FieldExtension,
        Word::FieldManagement,
        Word::FireContactClosed,
        Word::FireInterlock,
        Word::FireInterlockTest,
        Word::For,
        Word::Formula,
        Word::Free,
        Word::FreePorts,
        Word::From,
        Word::GateDrive,
        Word::GivenAsBuilt,
        Word::GivenCredentials,
        Word::GivenInstruction,
        Word::GivenKeys,
        Word::GivenManuals,
        Word::GivenPack,
        Word::GivenPrivacy,
        Word::GivenSpares,
        Word::GoesTo,
        Word::HandOver,
        Word::HandoverDoors,
        Word::HandoverGiven,
        Word::HandoverNote,
        Word::HandoverSigned,
        Word::HandoverSystem,
        Word::HandoverTested,
        Word::HandoverTitle,
        Word::HasJoints,
        Word::Heat,
        Word::Highest,
        Word::HighestVoltage,
        Word::HoldTime,
        Word::Holds,
        Word::InHandNote,
        Word::InHandTitle,
        Word::InTheWalls,
        Word::IndoorStation,
        Word::Indoors,
        Word::InputHash,
        Word::Inputs,
        Word::InstallerName,
        Word::IsolateMains,
        Word::Item,
        Word::JumperFitted,
        Word::JumperOpen,
        Word::Keypad,
        Word::Kind,
        Word::KindSmall,
        Word::LabelConvention,
        Word::LabelFrom,
        Word::LabelTo,
        Word::LargestCurrent,
        Word::LargestPower,
        Word::LatchedAtPowerUp,
        Word::LeastMargin,
        Word::LeaveTidy,
        Word::LedNote,
        Word::LeftOnDrum,
        Word::Leg,
        Word::LegsConvention,
        Word::Length,
        Word::Limit,
        Word::LimitThere,
        Word::Line,
        Word::LinePrice,
        Word::LiveNote,
        Word::LiveTitle,
        Word::LoadingMargin,
        Word::LoadingMarginMeaning,
        Word::Lock,
        Word::LockCableNotStated,
        Word::LockSupplyPart,
        Word::LockVoltage,
        Word::LockWithoutPower,
        Word::LoopResistance,
        Word::Lowest,
        Word::LowestVoltage,
        Word::Magnet,
        Word::MainsCurrent,
        Word::ManagementStation,
        Word::ManagementStations,
        Word::Margin,
        Word::MeasureLockLoop,
        Word::MechanicalEscape,
        Word::Mind,
        Word::Model,
        Word::Module,
        Word::MotorLock,
        Word::MountAndWire,
        Word::NameOnPanel,
        Word::NamesModule,
        Word::NamesPrivacy,
        Word::NamesTitle,
        Word::Needed,
        Word::NeverCutInTwo,
        Word::NewCable,
        Word::NewName,
        Word::No,
        Word::NoAddress,
        Word::NoBattery,
        Word::NoOperatingPoint,
        Word::NoPlace,
        Word::NoShortAtOutput,
        Word::Nobody,
        Word::NobodyCalls,
        Word::NominalVoltage,
        Word::NormallyClosed,
        Word::NormallyOpen,
        Word::NotInCatalogue,
        Word::NotJudged,
        Word::NotStated,
        Word::NotStatedNone,
        Word::NotStatedDefault,
        Word::NoteVersions,
        Word::Nothing,
        Word::NothingLeadsHere,
        Word::Number,
        Word::OhmmeterNote,
        Word::OpenCircuitVoltage,
        Word::OpensLocks,
        Word::OpensMeaning,
        Word::OrderedInDrums,
        Word::Outdoors,
        Word::OutputPower,
        Word::OwnerName,
        Word::Pair,
        Word::PairsSpare,
        Word::PairsUsed,
        Word::Panel,
        Word::PartsTitle,
        Word::Place,
        Word::PowerFrom,
        Word::PowerInHand,
        Word::ProveDead,
        Word::Quantity,
        Word::Reader,
        Word::Reading,
        Word::RechargeHours,
        Word::Reference,
        Word::RelayContactItem,
        Word::RelayNormallyClosed,
        Word::RelayNormallyOpen,
        Word::RelayOnSecureSide,
        Word::ReleaseAndVolume,
        Word::Remark,
        Word::Result,
        Word::Revision,
        Word::Rows,
        Word::RuleToLookAt,
        Word::Run,
        Word::RunWithoutSupply,
        Word::Runs,
        Word::RunsWhere,
        Word::ScreenConvention,
        Word::Screened,
        Word::SearchBounded,
        Word::SearchComplete,
        Word::SetAsPlanned,
        Word::SetClock,
        Word::SetInStation,
        Word::Settings,
        Word::SeveralCables,
        Word::Sheet,
        Word::SignedInstaller,
        Word::SignedOwner,
        Word::Site,
        Word::Snag,
        Word::SnagsAccepted,
        Word::SnagsClosed,
        Word::SnagsFound,
        Word::SnagsNote,
        Word::SnagsOnSite,
        Word::SnagsTitle,
        Word::Source,
        Word::SourceBound,
        Word::SourceKirchhoff,
        Word::SourceMeasured,
        Word::SourceVoltage,
        Word::Spares,
        Word::StageBatteries,
        Word::StageCheck,
        Word::StageDeviceList,
        Word::StageDoors,
        Word::StageFinish,
        Word::StageFirstStart,
        Word::StageIsolate,
        Word::StagePowerUp,
        Word::StageReadings,
        Word::StageSet,
        Word::StageStations,
        Word::StageWire,
        Word::StandbyHighest,
        Word::StandbyLowest,
        Word::StandbyMeaning,
        Word::StandbyNominal,
        Word::StandbyVoltageHere,
        Word::State,
        Word::StateAllCall,
        Word::StateBatteryEnd,
        Word::StateCall,
        Word::StateFireRelease,
        Word::StateLightLoad,
        Word::StatePowerReturn,
        Word::StateSelfView,
        Word::StateStandbyDay,
        Word::StateStandbyNight,
        Word::StatesSolved,
        Word::Stations,
        Word::StationsInHand,
        Word::Step,
        Word::Strike,
        Word::SummaryTitle,
        Word::Supplies,
        Word::SuppliesTitle,
        Word::Supply,
        Word::SurgeProtectorHere,
        Word::SurgeProtectorInRun,
        Word::SymbolsNote,
        Word::Terminal,
        Word::TerminatorHere,
        Word::TerminatorPart,
        Word::TestedBattery,
        Word::TestedDoors,
        Word::TestedEscape,
        Word::TestedFire,
        Word::TestedReadings,
        Word::TestedStations,
        Word::Title,
        Word::To,
        Word::ToOrder,
        Word::Total,
        Word::TryExitButton,
        Word::UnitPrice,
        Word::Value,
        Word::VaristorPart,
        Word::Verdict,
        Word::VerdictAssumed,
        Word::VerdictFails,
        Word::VerdictFailsAsAccepted,
        Word::VerdictHolds,
        Word::VerdictNotJudged,
        Word::VideoDoorStation,
        Word::VideoExtension,
        Word::VideoStation,
        Word::Voltage,
        Word::VoltageAtTerminals,
        Word::VoltageNotNeeded,
        Word::VoltagesTitle,
        Word::WaitForBoot,
        Word::Warning,
        Word::What,
        Word::WhatIsThere,
        Word::WhatToDo,
        Word::Where,
        Word::WhileReleased,
        Word::WhileShut,
        Word::WholeCurrent,
        Word::WiringInSeries,
        Word::WiringTitle,
        Word::WithoutPower,
        Word::WorstDevice,
        Word::WorstLowest,
        Word::WorstNominal,
        Word::WorstState,
        Word::Yes,
    ];
}

/// A sentence with arguments, which are shown as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sentence<'a> {
    /// allowed: `least` to `most`
    AllowedRange {
        /// `least` in it.
        least: &'a str,
        /// `most` in it.
        most: &'a str,
    },
    /// at least `value`
    AtLeast {
        /// `value` in it.
        value: &'a str,
    },
    /// at most `value`
    AtMost {
        /// `value` in it.
        value: &'a str,
    },
    /// at most `time` at a stretch
    AtMostAtAStretch {
        /// `time` in it.
        time: &'a str,
    },
    /// The battery carries the system for at least `hours` in standby; nothing to wait for today.
    BatteryCarries {
        /// `hours` in it.
        hours: &'a str,
    },
    /// Call from `caller`: it rings; speech is clear both ways. Voltage while talking:
    CallAudio {
        /// `caller` in it.
        caller: &'a str,
    },
    /// Call from `caller`: it rings with the main station; answer here, speech is clear both ways. Voltage while talking:
    CallAudioExtension {
        /// `caller` in it.
        caller: &'a str,
    },
    /// `from` talks with `to`, lock released
    CallReleasing {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// `from` rings `to`
    CallRinging {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// `from` talks with `to`
    CallTalking {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// Call from `caller`: it rings; the picture is steady; speech is clear both ways. Voltage while talking:
    CallVideo {
        /// `caller` in it.
        caller: &'a str,
    },
    /// Call from `caller`: it rings with the main station; answer here: picture is steady, speech is clear both ways. Voltage while talking:
    CallVideoExtension {
        /// `caller` in it.
        caller: &'a str,
    },
    /// `to` views `from`
    CallViewing {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// calls at once: `count`
    CallsStanding {
        /// `count` in it.
        count: &'a str,
    },
    /// Connect run `run`; what it leads to has power. Its current is read later, with everything beyond it.
    ConnectFeeder {
        /// `run` in it.
        run: &'a str,
    },
    /// Connect run `run`; current at `from`
    ConnectRun {
        /// `run` in it.
        run: &'a str,
        /// `from` in it.
        from: &'a str,
    },
    /// this lock needs: `contact`
    ContactNeeded {
        /// `contact` in it.
        contact: &'a str,
    },
    /// Cut to: the stated length, `tolerance` more for its tolerance, and `ends` at each end for making off, rounded up to 0.1 m.
    CutAllowance {
        /// `tolerance` in it.
        tolerance: &'a str,
        /// `ends` in it.
        ends: &'a str,
    },
    /// `name`: `needed`, bought to length (the catalogue states no drum lengths)
    CutByTheMetre {
        /// `name` in it.
        name: &'a str,
        /// `needed` in it.
        needed: &'a str,
    },
    /// `name`: `drums`; needed `needed`, bought `bought`, left over `waste`; proved least
    CutProved {
        /// `name` in it.
        name: &'a str,
        /// `drums` in it.
        drums: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `bought` in it.
        bought: &'a str,
        /// `waste` in it.
        waste: &'a str,
    },
    /// `name`: `needed`, order to length: a piece of `piece` is longer than the longest drum of `longest`
    CutTooLong {
        /// `name` in it.
        name: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `piece` in it.
        piece: &'a str,
        /// `longest` in it.
        longest: &'a str,
    },
    /// `name`: `drums`; needed `needed`, bought `bought`, left over `waste`; no plan buys less than `bound`
    CutWithBound {
        /// `name` in it.
        name: &'a str,
        /// `drums` in it.
        drums: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `bought` in it.
        bought: &'a str,
        /// `waste` in it.
        waste: &'a str,
        /// `bound` in it.
        bound: &'a str,
    },
    /// `door`: release, escape and fire interlock agreed with (name)
    DoorAgreed {
        /// `door` in it.
        door: &'a str,
    },
    /// Drop on `section`
    DropInSection {
        /// `section` in it.
        section: &'a str,
    },
    /// `count` ERRORS
    ErrorsShort {
        /// `count` in it.
        count: &'a str,
    },
    /// Current of `run` with everything beyond it
    FeederCurrent {
        /// `run` in it.
        run: &'a str,
    },
    /// port `port` is free
    FreePort {
        /// `port` in it.
        port: &'a str,
    },
    /// published: `least` to `most` (`source`)
    HeightRange {
        /// `least` in it.
        least: &'a str,
        /// `most` in it.
        most: &'a str,
        /// `source` in it.
        source: &'a str,
    },
    /// Lines without a price: `count`. The total leaves them out.
    LinesWithoutPrice {
        /// `count` in it.
        count: &'a str,
    },
    /// `door`: lock `number`
    LockCalculation {
        /// `door` in it.
        door: &'a str,
        /// `number` in it.
        number: &'a str,
    },
    /// Insulation between the conductors and to earth, electronics disconnected, as the cable allows: at least `least` Mohm. Reading:
    MeasureInsulation {
        /// `least` in it.
        least: &'a str,
    },
    /// Loop resistance from `from`, far end `end` short-circuited
    MeasureLoop {
        /// `from` in it.
        from: &'a str,
        /// `end` in it.
        end: &'a str,
    },
    /// `day` by day, `night` by night
    ModuleCurrent {
        /// `day` in it.
        day: &'a str,
        /// `night` in it.
        night: &'a str,
    },
    /// needs `what`
    Needs {
        /// `what` in it.
        what: &'a str,
    },
    /// `site` · revision `revision` · `date` · input SHA-256 `hash`
    Origin {
        /// `site` in it.
        site: &'a str,
        /// `revision` in it.
        revision: &'a str,
        /// `date` in it.
        date: &'a str,
        /// `hash` in it.
        hash: &'a str,
    },
    /// `site` · revision `revision` · input SHA-256 `hash`
    OriginUndated {
        /// `site` in it.
        site: &'a str,
        /// `revision` in it.
        revision: &'a str,
        /// `hash` in it.
        hash: &'a str,
    },
    /// Prices in `currency`, without tax and labour.
    PricesIn {
        /// `currency` in it.
        currency: &'a str,
    },
    /// Pull from `from` to `to`; label both ends.
    PullAndLabel {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// Release time: set to `time`. Measured:
    ReleaseTime {
        /// `time` in it.
        time: &'a str,
    },
    /// Set `address`: `settings`
    SetAddress {
        /// `address` in it.
        address: &'a str,
        /// `settings` in it.
        settings: &'a str,
    },
    /// Set the output to `voltage`.
    SetVoltage {
        /// `voltage` in it.
        voltage: &'a str,
    },
    /// sets of calls solved: `solved` of `of`
    SetsSolved {
        /// `solved` in it.
        solved: &'a str,
        /// `of` in it.
        of: &'a str,
    },
    /// THIS SITE HAS ERRORS (`count`): DO NOT BUILD FROM THIS SHEET. See the snag list.
    SiteHasErrors {
        /// `count` in it.
        count: &'a str,
    },
    /// Spares: one station for every `of` of a model begun, from `from` on (common practice). Cable: what is left of the drums.
    SpareRule {
        /// `from` in it.
        from: &'a str,
        /// `of` in it.
        of: &'a str,
    },
    /// U₀ = `source`, Σ R I = `drops`
    SumOfDrops {
        /// `source` in it.
        source: &'a str,
        /// `drops` in it.
        drops: &'a str,
    },
    /// `supply`: battery, mains, heat
    SupplyCalculation {
        /// `supply` in it.
        supply: &'a str,
    },
    /// Surge protector, `resistance` in the loop
    SurgeProtector {
        /// `resistance` in it.
        resistance: &'a str,
    },
    /// `module` works and opens what it should.
    TryModule {
        /// `module` in it.
        module: &'a str,
    },
    /// Voltage at the end of `run`
    VoltageAtEnd {
        /// `run` in it.
        run: &'a str,
    },
    /// `device` on `source`: `state`
    VoltageCalculation {
        /// `device` in it.
        device: &'a str,
        /// `source` in it.
        source: &'a str,
        /// `state` in it.
        state: &'a str,
    },
}
