//! Every word and sentence without arguments, by where it stands.

use latchline_assess::Verdict;
use latchline_finding::Severity;
use latchline_site::catalogue::FieldKind;

/// Makes the enum and the list of all of it from one list.
macro_rules! words {
    ($($name:ident,)*) => {
        /// A word or sentence without arguments. What each says stands in the module of every language.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub(crate) enum Word {
            $($name,)*
        }

        #[cfg(test)]
        impl Word {
            /// Every word.
            pub(crate) const ALL: &[Word] = &[$(Word::$name),*];
        }
    };
}

words! {
    // Title block.
    Date, NotStated, Revision, Sheet, UntitledSite, VerdictAssumed, VerdictFails, VerdictFailsAsAccepted,
    VerdictHolds, VerdictNotJudged,
    // Severities.
    Advice, Error, Warning,
    // Elevation.
    AudioStation, BelowLimit, BranchBox, CoreNotStated, CrossingLines, Distributor, DoorStation, Elevation,
    ElevationSubject, FloorNotStated, FurtherRuns, LowestVoltage, ManagementStation,
    MarginMeaning, MatchLine, NoOperatingPoint, NoVoltage, NothingStands, Outdoors, PlaceNotStated, Run,
    RunExisting, RunToBox, RunToBoxExisting, Supply, VideoStation,
    // Profiles.
    AdverseCurve, FeetFromSource, LimitLine, MetresFromSource, NominalCurve, NoProfile, Profiles,
    ProfilesSubject,
    // Signal and power return.
    Holds, Loss, NoPowerReturn, NoSignal, NotEveryDip, SignalSubject, StartUpSubject, Time, TooWeak,
    Undecided, Voltage,
    // Switches.
    AllOff, BlackFitted, FieldBuilding, FieldDwelling, FieldEntrance, FieldExtension, FieldManagement,
    JumperFitted, JumperIn, JumperOpen, KeyIn, LatchedAtPowerUp, SwitchSettings, SwitchSubject,
    // Wiring of locks and alarm inputs.
    AtDoorStation, BarToPlus, BusAtThe, Clamp, ClosedAtRest, ClosedWhileShut, CoilOnToRelease,
    CoilOnWhileShut, Diode, DoorContact, Drive, DriveInput, DryContact, DuressButton, EmergencyRelease,
    ExitButton, Feed, Fire, FireContact, InDoorStation, InputOf, ItsOwn, Lock, LoopsToContacts, Magnet,
    MotorLock, NormallyClosed, NormallyOpen, OfTheDrive, OpenAtRest, OpensToRelease, OpensWithoutPower,
    RelayBetween, ReleasesLocks, ResistorAtContact, StaysShutWithoutPower, Strike, SupplyOf, TamperContact,
    ToItsInput, Varistor, WiringNote, WiringSubject, WiringWhat,
}

impl Word {
    pub(crate) fn of_verdict(verdict: Verdict) -> Word {
        match verdict {
            Verdict::Holds => Word::VerdictHolds,
            Verdict::HoldsOnAssumedData => Word::VerdictAssumed,
            Verdict::NotJudged => Word::VerdictNotJudged,
            Verdict::FailsAsAccepted => Word::VerdictFailsAsAccepted,
            Verdict::Fails => Word::VerdictFails,
        }
    }

    pub(crate) fn of_severity(severity: Severity) -> Word {
        match severity {
            Severity::Advice => Word::Advice,
            Severity::Warning => Word::Warning,
            Severity::Error => Word::Error,
        }
    }

    pub(crate) fn of_field(kind: FieldKind) -> Word {
        match kind {
            FieldKind::Building => Word::FieldBuilding,
            FieldKind::Dwelling => Word::FieldDwelling,
            FieldKind::Entrance => Word::FieldEntrance,
            FieldKind::Extension => Word::FieldExtension,
            FieldKind::Management => Word::FieldManagement,
        }
    }
}
