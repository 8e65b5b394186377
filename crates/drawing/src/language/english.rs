//! Drawings in English.

use super::{Phrase, Word};

/// A fixed word or sentence.
pub(super) fn word(word: Word) -> &'static str {
    match word {
        Word::Date => "Date",
        Word::NotStated => "not stated",
        Word::Revision => "Revision",
        Word::Sheet => "Sheet",
        Word::UntitledSite => "Untitled site",
        Word::VerdictAssumed => "holds on assumed data",
        Word::VerdictFails => "fails",
        Word::VerdictFailsAsAccepted => "fails as accepted",
        Word::VerdictHolds => "holds",
        Word::VerdictNotJudged => "not judged",
        Word::Advice => "advice",
        Word::Error => "error",
        Word::Warning => "warning",
        Word::AudioStation => "audio station",
        Word::BelowLimit => "below the limit",
        Word::BranchBox => "branch box",
        Word::CoreNotStated => "no core stated",
        Word::CrossingLines => "lines that cross are not joined",
        Word::Distributor => "distributor",
        Word::DoorStation => "door station",
        Word::Elevation => "elevation",
        Word::ElevationSubject => "Elevation with runs and voltages",
        Word::FloorNotStated => "floor not stated",
        Word::FurtherRuns => "further runs:",
        Word::LowestVoltage => "V: lowest, in the worst state",
        Word::ManagementStation => "management station",
        Word::MarginMeaning => "+ V: margin to its limit",
        Word::MatchLine => "match line",
        Word::NoOperatingPoint => "no operating point",
        Word::NoVoltage => "no voltage",
        Word::NothingStands => "Nothing stands on this site yet.",
        Word::Outdoors => "Outdoors",
        Word::PlaceNotStated => "Place not stated",
        Word::Run => "run",
        Word::RunExisting => "run, cable already in place",
        Word::RunToBox => "run to a box",
        Word::RunToBoxExisting => "run to a box, cable already in place",
        Word::Supply => "supply",
        Word::VideoStation => "video station",
        Word::AdverseCurve => "adverse tolerances, each device in its worst state",
        Word::FeetFromSource => "ft from the source",
        Word::LimitLine => "limit",
        Word::MetresFromSource => "m from the source",
        Word::NominalCurve => "the same state with nominal values",
        Word::NoProfile => "No run reaches a device with a voltage limit.",
        Word::Profiles => "voltage along each run",
        Word::ProfilesSubject => "Voltage along each run",
        Word::Holds => "holds",
        Word::Loss => "loss, dB",
        Word::NoPowerReturn => "No power return was judged.",
        Word::NoSignal => "No band of signals was judged.",
        Word::NotEveryDip => "Not every dip that might decide was narrowed.",
        Word::SignalSubject => "Signal at the weakest station",
        Word::StartUpSubject => "Bus voltage when power returns",
        Word::Time => "time, s",
        Word::TooWeak => "too weak",
        Word::Undecided => "neither up nor settled by the end of the simulated time",
        Word::Voltage => "voltage, V",
        Word::AllOff => "all off",
        Word::BlackFitted => "black = fitted",
        Word::FieldBuilding => "building",
        Word::FieldDwelling => "dwelling",
        Word::FieldEntrance => "entrance",
        Word::FieldExtension => "extension",
        Word::FieldManagement => "management",
        Word::JumperFitted => "fitted",
        Word::JumperIn => "in",
        Word::JumperOpen => "open",
        Word::KeyIn => "key in",
        Word::LatchedAtPowerUp => "Settings are read at power-up: switch the bus off and on after a change.",
        Word::SwitchSettings => "switch settings",
        Word::SwitchSubject => "Switch settings, at true scale when printed without scaling",
        Word::AtDoorStation => "door station",
        Word::BarToPlus => "bar to plus",
        Word::BusAtThe => "bus at the",
        Word::Clamp => "clamp",
        Word::ClosedAtRest => "closed at rest",
        Word::ClosedWhileShut => "closed while shut",
        Word::CoilOnToRelease => "coil on to release",
        Word::CoilOnWhileShut => "coil on while shut",
        Word::Diode => "diode",
        Word::DoorContact => "door contact",
        Word::Drive => "drive",
        Word::DriveInput => "drive's input",
        Word::DryContact => "dry contact for a drive with power of its own",
        Word::DuressButton => "duress button",
        Word::EmergencyRelease => "emergency release",
        Word::ExitButton => "exit button",
        Word::Feed => "feed",
        Word::Fire => "FIRE",
        Word::FireContact => "fire alarm contact",
        Word::InDoorStation => "in the door station",
        Word::InputOf => "input of",
        Word::ItsOwn => "its own",
        Word::Lock => "lock",
        Word::LoopsToContacts => "loops from the door station's inputs to their contacts",
        Word::Magnet => "magnet",
        Word::MotorLock => "motor lock",
        Word::NormallyClosed => "normally closed",
        Word::NormallyOpen => "normally open",
        Word::OfTheDrive => "the drive",
        Word::OpenAtRest => "open at rest",
        Word::OpensToRelease => "opens to release",
        Word::OpensWithoutPower => "opens without power: contacts in series, closed while shut",
        Word::RelayBetween => "relay in between",
        Word::ReleasesLocks => "releases the locks",
        Word::ResistorAtContact => "resistor at the contact",
        Word::StaysShutWithoutPower => "stays shut without power: a contact closes to release",
        Word::Strike => "strike",
        Word::SupplyOf => "supply of",
        Word::TamperContact => "tamper contact",
        Word::ToItsInput => "to its input",
        Word::Varistor => "varistor",
        Word::WiringNote => "Isolate and prove dead before wiring; the responsible person decides on escape.",
        Word::WiringSubject => "Wiring of locks and alarm inputs, contacts drawn at rest",
        Word::WiringWhat => "wiring of locks and alarm inputs",
    }
}

/// A sentence with its arguments.
pub(super) fn phrase(phrase: &Phrase<'_>) -> String {
    let with = |lead: &str, part: Option<&str>, tail: &str| {
        part.map_or_else(String::new, |part| format!("{lead}{part}{tail}"))
    };
    match *phrase {
        Phrase::AlarmInput { number } => format!("alarm input {number}"),
        Phrase::AlarmInputsOfDoor { door } => format!("{door} alarm inputs"),
        Phrase::LockOfDoor { door, number } => format!("{door} lock {number}"),
        Phrase::LockOutput { number } => format!("lock output {number}"),
        Phrase::RelayClosed { number } => format!("relay {number}, normally closed"),
        Phrase::RelayOpen { number } => format!("relay {number}, normally open"),
        Phrase::Tells { names } => format!("tells {names}"),
        Phrase::AllUp { devices, after, last } => {
            format!(
                "all {devices} devices are up{}{}",
                with(" after ", after, " s"),
                with(", ", last, " last")
            )
        }
        Phrase::Band { band, low, high, unit } => format!("{band}, {low} to {high} {unit}"),
        Phrase::BootCurrent { current, limit: Some((source, limit)) } => {
            format!("Booting all at once takes {current} A; {source} gives {limit} A.")
        }
        Phrase::BootCurrent { current, limit: None } => format!("Booting all at once takes {current} A."),
        Phrase::BrownOut { down, devices } => {
            format!("stays in a brown-out; {down} of {devices} devices never run")
        }
        Phrase::Budget { budget } => format!("budget {budget} dB"),
        Phrase::ChartsShow { charts } => format!("{charts} charts in all."),
        Phrase::ElevationShows { site, sheet, of, devices, all } => {
            format!("Elevation of {site}, sheet {sheet} of {of}: {devices} of {all} devices and their runs.")
        }
        Phrase::Frequency { unit } => format!("frequency, {unit}"),
        Phrase::FromSource { source } => format!("From {source}"),
        Phrase::Hears { station, caller } => format!("{station} from {caller}"),
        Phrase::Hiccups { period, down, devices } => format!(
            "starts and drops out again and again{}; {down} of {devices} devices are down",
            with(", every ", period, " s")
        ),
        Phrase::LimitVolts { limit } => format!("limit {limit} V"),
        Phrase::Margin { margin } => format!("margin {margin}"),
        Phrase::MarginBetween { least, most } => format!("{least} to {most} V"),
        Phrase::MarginOrMore { least } => format!("margin {least} V or more"),
        Phrase::MarginUnder { most } => format!("under {most} V"),
        Phrase::MatchLineSheets { sheets, several: false } => format!("match line, sheet {sheets}"),
        Phrase::MatchLineSheets { sheets, several: true } => format!("match line, sheets {sheets}"),
        Phrase::MendingLimit { limit } => format!("Seen to start with a supply limit of {limit} A."),
        Phrase::MendingStagger { stagger } => {
            format!("Seen to start with {stagger} s between one run and the next.")
        }
        Phrase::NotNamed { names } => format!("not named above: {names}"),
        Phrase::OfLimit { value, limit } => format!("{value} of {limit}"),
        Phrase::PowerReturns { source } => format!("{source}: power returns at 0 s"),
        Phrase::ProfilesShow { groups } => format!("Voltage against distance of {groups} groups of runs."),
        Phrase::RotaryAt { position } => format!("at {position}"),
        Phrase::RunFromTo { run, from, to } => format!("run {run}, from {from} to {to}"),
        Phrase::RunTo { run, to } => format!("{run} to {to}"),
        Phrase::SectionOn { length, conductor, run } => format!("{length} of {conductor} on run {run}"),
        Phrase::SheetOf { sheet, of } => format!("{sheet} of {of}"),
        Phrase::SheetTitle { site, what, sheet, of } => format!("{site}: {what}, sheet {sheet} of {of}"),
        Phrase::SingleStops { from } => format!("single stops from {from}"),
        Phrase::StartsAt { from } => format!("from {from}"),
        Phrase::SwitchesOn { numbers } => format!("ON: {numbers}"),
        Phrase::TitleContinued { title } => format!("{title}, continued"),
        Phrase::TroubleList { troubles } => format!("Trouble: {troubles}."),
        Phrase::TurnsOff { voltage } => format!("turns off {voltage} V"),
        Phrase::TurnsOn { voltage } => format!("turns on {voltage} V"),
        Phrase::UsualConductor { conductor } => format!("conductor {conductor} where none is named"),
        Phrase::Verdict { verdict } => format!("Verdict: {verdict}. Not a certificate."),
        Phrase::Weakest { station, caller, loss, share, at, unit, budget, outcome } => format!(
            "{station} hears {caller} with a loss of {loss} dB{}, at {at} {unit}; {budget} dB are allowed: {outcome}",
            with(" over ", share, " % of the band")
        ),
        Phrase::WeakestFrom { caller, station, loss, at, unit } => {
            format!("From {caller}: weakest is {station}, {loss} dB at {at} {unit}")
        }
    }
}
