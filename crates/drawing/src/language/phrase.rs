//! Every sentence with arguments.

/// A sentence with its arguments, which are names and figures as they are to be shown.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs, reason = "the arguments are named for what they are")]
pub(crate) enum Phrase<'a> {
    /// An alarm input of a door station.
    AlarmInput { number: usize },
    /// The picture of a door's alarm inputs.
    AlarmInputsOfDoor { door: &'a str },
    /// The picture of a lock.
    LockOfDoor { door: &'a str, number: usize },
    /// A lock output of a door station.
    LockOutput { number: usize },
    /// A relay that is closed at rest.
    RelayClosed { number: usize },
    /// A relay that is open at rest.
    RelayOpen { number: usize },
    /// Who is told of an alarm.
    Tells { names: &'a str },
    /// The title of a sheet.
    SheetTitle { site: &'a str, what: &'a str, sheet: usize, of: usize },
    /// Number of a sheet.
    SheetOf { sheet: usize, of: usize },
    /// The verdict in the title block.
    Verdict { verdict: &'a str },
    /// A figure with its limit.
    OfLimit { value: &'a str, limit: &'a str },
    /// A section of a run, for those who cannot see it.
    SectionOn { length: &'a str, conductor: &'a str, run: &'a str },
    /// A margin.
    Margin { margin: &'a str },
    /// A run, for those who cannot see it.
    RunFromTo { run: &'a str, from: &'a str, to: &'a str },
    /// What an elevation shows.
    ElevationShows { site: &'a str, sheet: usize, of: usize, devices: usize, all: usize },
    /// What is wrong on a sheet.
    TroubleList { troubles: &'a str },
    /// A step of the margin: this and more.
    MarginOrMore { least: &'a str },
    /// A step of the margin: between two.
    MarginBetween { least: &'a str, most: &'a str },
    /// A step of the margin: under this.
    MarginUnder { most: &'a str },
    /// The conductor that labels leave out.
    UsualConductor { conductor: &'a str },
    /// A run at a match line, told apart by the device that it leads to.
    RunTo { run: &'a str, to: &'a str },
    /// A match line and the sheets where it goes on.
    MatchLineSheets { sheets: &'a str, several: bool },
    /// A heading: the source of the runs below.
    FromSource { source: &'a str },
    /// A title whose sheet or panel is not the first.
    TitleContinued { title: &'a str },
    /// Title of the axis of frequency.
    Frequency { unit: &'a str },
    /// Runs with one stop from one box.
    SingleStops { from: &'a str },
    /// Where a run begins, behind its name.
    StartsAt { from: &'a str },
    /// A limit in volts.
    LimitVolts { limit: &'a str },
    /// What found no room.
    NotNamed { names: &'a str },
    /// What profiles show.
    ProfilesShow { groups: usize },
    /// What charts show.
    ChartsShow { charts: usize },
    /// A band with its ends.
    Band { band: &'a str, low: &'a str, high: &'a str, unit: &'a str },
    /// The weakest station of a band.
    Weakest {
        station: &'a str,
        caller: &'a str,
        loss: &'a str,
        share: Option<&'a str>,
        at: &'a str,
        unit: &'a str,
        budget: &'a str,
        outcome: &'a str,
    },
    /// The weakest station of one caller.
    WeakestFrom { caller: &'a str, station: &'a str, loss: &'a str, at: &'a str, unit: &'a str },
    /// A curve: who hears whom.
    Hears { station: &'a str, caller: &'a str },
    /// What a band allows.
    Budget { budget: &'a str },
    /// Power returns at a source.
    PowerReturns { source: &'a str },
    /// Every device runs.
    AllUp { devices: usize, after: Option<&'a str>, last: Option<&'a str> },
    /// The source switches off and on.
    Hiccups { period: Option<&'a str>, down: usize, devices: usize },
    /// The voltage stays too low to start.
    BrownOut { down: usize, devices: usize },
    /// The voltage at which a device turns on.
    TurnsOn { voltage: &'a str },
    /// The voltage at which a device turns off.
    TurnsOff { voltage: &'a str },
    /// The current of booting, and what the source gives.
    BootCurrent { current: &'a str, limit: Option<(&'a str, &'a str)> },
    /// A stagger that was seen to mend a start.
    MendingStagger { stagger: &'a str },
    /// A limit that was seen to mend a start.
    MendingLimit { limit: &'a str },
    /// Where a rotary switch points.
    RotaryAt { position: &'a str },
    /// The switches that are on.
    SwitchesOn { numbers: &'a str },
}
