//! Every word and sentence without arguments, by where it stands in the pack.

/// Makes the enum and the list of all of it from one list.
macro_rules! words {
    ($($name:ident,)*) => {
        /// A word or sentence without arguments. What each says stands in the module of every language.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Word {
            $(#[doc = stringify!($name)] $name,)*
        }

        impl Word {
            /// Every word.
            #[cfg(test)]
            pub(crate) const ALL: &[Word] = &[$(Word::$name),*];
        }
    };
}

words! {
    // Shared by several.
    About, Address, Cable, CableType, CautionApart, CautionCodes, CautionEscape, CautionIsolate, CautionMains,
    CautionNoCertificate, Cautions, ClampPart, Contents, ContentsTitle, DiodePart, Done, DoorContactPart,
    DoorStation, EmergencyReleasePart, ExitButtonPart, Free, From, InputHash, Item, Kind,
    Length, Limit, Line, Lock, ManagementStation, Margin, Model, No, NotJudged, NotStated, Outdoors, Place,
    Remark, Revision, Rows, Run, Sheet, State, StateAllCall, StateBatteryEnd, StateCall, StateFireRelease,
    StateLightLoad, StatePowerReturn, StateSelfView, StateStandbyDay, StateStandbyNight, Stations, Supply,
    Terminal, Title, Total, Value, VaristorPart, Verdict, VerdictAssumed, VerdictFails,
    VerdictFailsAsAccepted, VerdictHolds, VerdictNotJudged, Voltage, What, Where, Yes,
    // Doors, locks and modules.
    AcrossContact, AcrossLock, AlternatingCurrent, BusCollapses, Buttons, CautionAssumed, CautionDiode,
    CautionDrive, CautionOpens, CautionSecureSide, CautionWayOut, ContinuousDuty, ControlHeight, Current,
    CurrentKind, DelayedEgress, DirectCurrent, Door, DoorsTitle, DriveInput, EitherCurrent,
    EmergencyReleaseClosed, Energised, EscapeRoute, ExitButtonNormallyClosed, ExitButtonNormallyOpen,
    FailSafe, FailSecure, FeedBus, FeedDryContact, FeedMinus, FeedOwnSupply, FeedPlus, FeedStation,
    FireContactClosed, FireInterlock, GateDrive, HighestVoltage, HoldTime, Keypad, LoopResistance,
    LowestVoltage, Magnet, MechanicalEscape, Mind, Module, MotorLock, NamesModule, NominalVoltage,
    NormallyClosed, NormallyOpen, NotStatedNone, NotStatedDefault, Nothing, PowerFrom, Reader,
    RelayContactItem, RelayNormallyClosed, RelayNormallyOpen, RelayOnSecureSide, RuleToLookAt, SetAsPlanned,
    SetInStation, Strike, VoltageNotNeeded, WhileReleased, WhileShut, WiringInSeries, WithoutPower,
    // Relays in between, lights, heater and alarm inputs.
    CoilOfRelayBetween, FeedAlternating, PanelAdvice, RelayBetween,
    AlarmContact, AlarmInput, ButtonLight, ContactCableNotStated, CutNotNoticed, DoorAlarm, DuressAlarm,
    EndOfLineResistor, FireAlarm, Heater, Light, LightFromBus, LightFromOwnSupply, LightFromStation,
    LitAlways, LitAtNight, LitInUse, MeasureContactLoop, NameLight, PorchLight, ReleasesLocks, RestsClosed,
    RestsOpen, StandbyLoad, TamperAlarm,
    // Supplies and batteries.
    AgeingRemark, Ambient, Battery, BatteryCapacity, BatteryHours, BatteryVoltage, CapacityCountedOn,
    ChargeCurrent, ChargingPower, ChargingWaits, Heat, MainsCurrent, NoBattery, OutputPower, RechargeHours,
    SuppliesTitle,
    // Calculation sheets.
    CalculationsNote, CalculationsTitle, DropInBox, DropInSource, For, Formula, Holds, Inputs,
    NoOperatingPoint, Quantity, Result, Source, SourceBound, SourceKirchhoff, SourceMeasured, SourceVoltage,
    SymbolsNote, VoltageAtTerminals,
    // Summary and what is in hand.
    AssumedValue, BranchBoxes, Buildings, CurrentInHand, Distributors, Dwellings, Entrances, ExistingCable,
    Family, FreePorts, InHandNote, InHandTitle, LargestCurrent, LargestPower, LeastMargin, LoadingMargin,
    LoadingMarginMeaning, ManagementStations, NewCable, PowerInHand, Runs, SearchBounded, SearchComplete,
    StatesSolved, StationsInHand, SummaryTitle, Supplies, WhatIsThere, WorstDevice,
    // Wiring, cables and cutting.
    BesideMains, Buried, CableEnd, CablesTitle, Colour, ColourConvention, ConductorSize, CutBoundMeaning,
    CutLength, CutListTitle, Device, Drum, DrumLength, EndOfChain, ExistingColours, GoesTo, HasJoints,
    InTheWalls, Indoors, LabelConvention, LabelFrom, LabelTo, LeftOnDrum, Leg, LegsConvention,
    LockCableNotStated, NeverCutInTwo, NothingLeadsHere, Pair, PairsSpare, PairsUsed, RunsWhere,
    ScreenConvention, Screened, SeveralCables, SurgeProtectorHere, SurgeProtectorInRun, TerminatorHere, To,
    WiringTitle,
    // Devices, settings and parts.
    Accessory, AddressMissing, AudioDoorStation, AudioExtension, AudioStation, BoxKind, BranchBox,
    Designation, DevicesTitle, Distributor, FieldBuilding, FieldDwelling, FieldEntrance, FieldExtension,
    FieldManagement, IndoorStation, JumperFitted, JumperOpen, KindSmall, LatchedAtPowerUp, LinePrice,
    LockSupplyPart, Needed, NoAddress, NoPlace, NotInCatalogue, Number, OrderedInDrums, PartsTitle, Reference,
    Settings, Spares, TerminatorPart, ToOrder, UnitPrice, VideoDoorStation, VideoExtension, VideoStation,
    // Calls and names.
    Called, CalledFrom, CallsTitle, Dwelling, NameOnPanel, NamesPrivacy, NamesTitle, NewName, Nobody,
    OpensLocks, OpensMeaning, Panel,
    // Commissioning.
    AllRunsOff, BatteryTakesOver, BeforePowerNote, BeforePowerTitle, ChangeCredentials, CompareDeviceList,
    CornersMeaning, DisconnectBattery, EscapeWithoutSystem, ExpectedValue, FireInterlockTest, HandOver,
    Highest, IsolateMains, LeaveTidy, LedNote, LimitThere, LiveNote, LiveTitle, LockVoltage, LockWithoutPower,
    Lowest, MeasureLockLoop, MountAndWire, NoShortAtOutput, NobodyCalls, NoteVersions, OhmmeterNote,
    OpenCircuitVoltage, ProveDead, Reading, ReleaseAndVolume, RunWithoutSupply, SetClock, StageBatteries,
    StageCheck, StageDeviceList, StageDoors, StageFinish, StageFirstStart, StageIsolate, StagePowerUp,
    StageReadings, StageSet, StageStations, StageWire, StandbyHighest, StandbyLowest, StandbyMeaning,
    StandbyNominal, StandbyVoltageHere, Step, TryExitButton, VoltagesTitle, WaitForBoot, WhatToDo,
    WholeCurrent, WorstLowest, WorstNominal, WorstState,
    // Snags and handover.
    Accepted, Advice, By, DateDone, DateWord, Error, GivenAsBuilt, GivenCredentials, GivenInstruction,
    GivenKeys, GivenManuals, GivenPack, GivenPrivacy, GivenSpares, HandoverDoors, HandoverGiven, HandoverNote,
    HandoverSigned, HandoverSystem, HandoverTested, HandoverTitle, InstallerName, OwnerName, SignedInstaller,
    SignedOwner, Site, Snag, SnagsAccepted, SnagsClosed, SnagsFound, SnagsNote, SnagsOnSite, SnagsTitle,
    TestedBattery, TestedDoors, TestedEscape, TestedFire, TestedReadings, TestedStations, Warning,
}
