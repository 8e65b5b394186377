//! What a sheet must say beside the figures.

/// Something that the sheet must say beside the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caution {
    /// Isolate and prove dead before wiring; mains work by licensed people.
    IsolateAndProveDead,
    /// Extra-low voltage apart from mains.
    KeepApartFromMains,
    /// Release on escape routes and the fire interlock are decided by the responsible person; local
    /// codes prevail.
    ResponsiblePersonDecides,
    /// The way out must work without the bus and without the door station.
    WayOutWithoutBus,
    /// The relay belongs on the secure side of the door.
    RelayOnSecureSide,
    /// The relay is in the door station, which is outdoors: whoever takes that off the wall can open the door.
    RelayInStationOutdoors,
    /// A diode conducts one way: mind its polarity, and never on alternating current.
    DiodePolarity,
    /// The coil is energised all the time the door is shut: a warm lock is normal, its supply needs a
    /// battery or it opens.
    OpensOnPowerFailure,
    /// The drive's own safety devices are another trade's work.
    DriveSafety,
    /// A figure of the sheet rests on assumed values.
    RestsOnAssumedValues,
}
