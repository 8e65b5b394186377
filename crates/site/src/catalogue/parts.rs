//! Families and their supplies, boxes and stations.

use super::{AddressScheme, PartHead};
use latchline_finding::Sourced;
use latchline_finding::quantity::{
    Capacitance, Charge, Current, Decibels, Duration, Frequency, Inductance, Length, Power, Ratio,
    Resistance, Temperature, Voltage,
};

/// A family of parts that speak one language on one kind of bus.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// Name, title, source.
    pub head: PartHead,
    /// Nominal bus voltage.
    pub nominal_voltage: Sourced<Voltage>,
    /// Calls that may stand at once on one site.
    pub simultaneous_calls: Sourced<u32>,
    /// Self-started views that may stand at once, within the number of calls.
    pub simultaneous_views: Sourced<u32>,
    /// Whether the management station can call every dwelling at once.
    pub all_call: Sourced<bool>,
    /// Longest cable path from a supply's or distributor's port to the last device of its run.
    pub longest_run: Option<Sourced<Length>>,
    /// Greatest total length of cable on one port, branches included.
    pub total_length_per_port: Option<Sourced<Length>>,
    /// Most stations on one port, branches included.
    pub stations_per_port: Option<Sourced<u32>>,
    /// Most distributors one behind the other.
    pub cascade_depth: Option<Sourced<u32>>,
    /// Most door stations on one site.
    pub door_stations: Option<Sourced<u32>>,
    /// Most stations of one dwelling, the main one included.
    pub stations_per_dwelling: Option<Sourced<u32>>,
    /// Whether the last station of every chain needs the family's terminator.
    pub terminator_required: Sourced<bool>,
    /// Resistance of that terminator.
    pub terminator_resistance: Option<Sourced<Resistance>>,
    /// Its series capacitor; without one the bus voltage heats it.
    pub terminator_capacitance: Option<Sourced<Capacitance>>,
    /// Frequency bands of its signals; empty where it gives only lengths.
    pub signal_bands: Vec<SignalBand>,
    /// Whether several stations may hang on one chain (looped in and out).
    pub chains: Sourced<bool>,
    /// Whether a chain may branch at stations and branch boxes.
    pub branches: Sourced<bool>,
    /// How devices are numbered and set.
    pub addresses: AddressScheme,
}

/// A band of frequencies that a family uses on the pair.
#[derive(Debug, Clone, PartialEq)]
pub struct SignalBand {
    /// What it carries.
    pub name: String,
    /// Lower end.
    pub low: Sourced<Frequency>,
    /// Upper end, above the lower.
    pub high: Sourced<Frequency>,
    /// Greatest insertion loss.
    pub budget: Sourced<Decibels>,
    /// Part of the band in which it must be kept; 1 for all of it.
    pub share: Sourced<Ratio>,
    /// Greatest difference between the highest and the lowest level in the band.
    pub ripple: Option<Sourced<Decibels>>,
    /// Whether only video stations use it.
    pub video_only: bool,
}

/// A load as a datasheet gives it: which of the three, the unit says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LoadValue {
    /// Draws this power whatever its voltage ("4.5 W").
    Power(Power),
    /// Draws this current whatever its voltage ("85 mA").
    Current(Current),
    /// A resistance across the bus ("470 ohm").
    Resistance(Resistance),
}

/// What a supply or port does beyond its rating.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LimitKind {
    /// Holds the current at the limit; the voltage gives way.
    ConstantCurrent,
    /// Lowers the current as the voltage falls.
    Foldback,
    /// Switches off, waits and tries again.
    Hiccup,
    /// Switches off until reset (a fuse or latched trip).
    Trip,
}

/// A DC power supply unit.
#[derive(Debug, Clone, PartialEq)]
pub struct SupplyModel {
    /// Name, title, source, price.
    pub head: PartHead,
    /// The family it belongs to.
    pub family: Sourced<String>,
    /// Open-circuit output voltage.
    pub voltage: Sourced<Voltage>,
    /// Tolerance of the output voltage, either way.
    pub voltage_tolerance: Sourced<Ratio>,
    /// Ripple of the output voltage, root mean square, as a share of it; `None` counts as ripple-free.
    pub ripple: Option<Sourced<Ratio>>,
    /// Resistance behind the output.
    pub source_resistance: Sourced<Resistance>,
    /// Rated output power.
    pub rated_power: Option<Sourced<Power>>,
    /// Rated (continuous) output current.
    pub rated_current: Sourced<Current>,
    /// Current at which the limit acts; `rated_current` where the datasheet has no other.
    pub limit_current: Option<Sourced<Current>>,
    /// What happens there.
    pub limit_kind: Sourced<LimitKind>,
    /// Foldback: the current into a short. Unused otherwise.
    pub short_circuit_current: Option<Sourced<Current>>,
    /// Hiccup: time over the limit before it switches off.
    pub trip_delay: Option<Sourced<Duration>>,
    /// Hiccup: pause before it tries again.
    pub retry_pause: Option<Sourced<Duration>>,
    /// Number of output terminals pairs, all in parallel inside.
    pub outputs: Sourced<u32>,
    /// Inductance of the feed choke in series with the output.
    pub feed_choke: Option<Sourced<Inductance>>,
    /// Capacitor across the output.
    pub output_capacitance: Option<Sourced<Capacitance>>,
    /// Efficiency at rated load.
    pub efficiency: Option<Sourced<Ratio>>,
    /// Nominal mains voltage.
    pub mains_voltage: Option<Sourced<Voltage>>,
    /// Mains power factor.
    pub power_factor: Option<Sourced<Ratio>>,
    /// Highest ambient temperature at rated load.
    pub ambient_limit: Option<Sourced<Temperature>>,
    /// Share of its rated power that it loses for every kelvin above that.
    pub derating_per_kelvin: Option<Sourced<Ratio>>,
    /// Built-in or attached battery.
    pub battery: Option<Battery>,
}

/// The battery behind a supply.
#[derive(Debug, Clone, PartialEq)]
pub struct Battery {
    /// Nominal capacity.
    pub capacity: Sourced<Charge>,
    /// Hours at which the capacity is rated (20 for the 20-hour rate).
    pub rated_hours: Sourced<f64>,
    /// Peukert exponent.
    pub peukert_exponent: Option<Sourced<f64>>,
    /// Nominal voltage of the battery.
    pub voltage: Sourced<Voltage>,
    /// Bus voltage at the end of discharge, at the supply's output.
    pub end_bus_voltage: Sourced<Voltage>,
    /// Efficiency from battery to bus.
    pub efficiency: Option<Sourced<Ratio>>,
    /// Greatest charging current.
    pub charge_current: Option<Sourced<Current>>,
}

/// Whether a box hands out runs from the riser or splits one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoxRole {
    /// The powered box whose ports feed runs; distributors cascade.
    Distributor,
    /// A passive or lightly loaded box that splits one run into several.
    BranchBox,
}

/// How a box treats the direct current that passes through it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum BoxKind {
    /// Input and ports are joined, at most through a resistance.
    Transparent,
    /// Joined, each port with its own current limit.
    PortLimited,
    /// Ports are fed by a converter: a new voltage, drawn from the input as power.
    Regenerated,
    /// Only signals pass from the link to the ports; power comes from a supply on its input.
    Isolating,
}

/// A distributor or branch box.
#[derive(Debug, Clone, PartialEq)]
pub struct BoxModel {
    /// Name, title, source, price.
    pub head: PartHead,
    /// The family it belongs to.
    pub family: Sourced<String>,
    /// Distributor or branch box.
    pub role: Sourced<BoxRole>,
    /// How it treats direct current.
    pub kind: Sourced<BoxKind>,
    /// Number of ports.
    pub ports: Sourced<u32>,
    /// Own consumption at its input.
    pub consumption: Option<Sourced<LoadValue>>,
    /// Drop of its input rectifier, for a consumption given as power.
    pub rectifier_drop: Option<Sourced<Voltage>>,
    /// Least voltage at its input.
    pub least_voltage: Option<Sourced<Voltage>>,
    /// Highest voltage at its input.
    pub highest_voltage: Option<Sourced<Voltage>>,
    /// Series resistance from input to each port (loop).
    pub port_resistance: Sourced<Resistance>,
    /// Current limit of each port.
    pub port_current_limit: Option<Sourced<Current>>,
    /// What the port does there.
    pub port_limit_kind: Option<Sourced<LimitKind>>,
    /// Hiccup or trip: time over the limit before a port switches off.
    pub port_trip_delay: Option<Sourced<Duration>>,
    /// Hiccup: pause before a port tries again.
    pub port_retry_pause: Option<Sourced<Duration>>,
    /// Regenerated: input voltage at which its converter starts.
    pub turn_on_voltage: Option<Sourced<Voltage>>,
    /// Regenerated: input voltage at which its converter stops.
    pub turn_off_voltage: Option<Sourced<Voltage>>,
    /// Regenerated: capacitor at its input, behind the rectifier if it has one.
    pub input_capacitance: Option<Sourced<Capacitance>>,
    /// Regenerated: output voltage.
    pub output_voltage: Option<Sourced<Voltage>>,
    /// Regenerated: its tolerance.
    pub output_tolerance: Option<Sourced<Ratio>>,
    /// Regenerated: resistance behind the ports.
    pub output_resistance: Option<Sourced<Resistance>>,
    /// Regenerated: rated output power.
    pub output_power: Option<Sourced<Power>>,
    /// Regenerated: efficiency.
    pub efficiency: Option<Sourced<Ratio>>,
    /// Isolating: whether 0 V is shared between link and ports.
    pub shares_zero_volt: Option<Sourced<bool>>,
    /// Signal loss from input or link to each port.
    pub signal_loss: Option<Sourced<Decibels>>,
    /// Feed choke at each port, where the box feeds power there.
    pub feed_choke: Option<Sourced<Inductance>>,
}

/// Which of the three kinds of station.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StationKind {
    /// The visitor's unit.
    Door,
    /// The resident's unit.
    Indoor,
    /// The concierge's unit.
    Management,
}

/// What a station carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Media {
    /// Speech only.
    Audio,
    /// Speech and picture.
    Video,
}

/// How a station sits on a chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoopThrough {
    /// In and out are joined on the terminal block: taking the station out leaves the chain whole.
    Bridged,
    /// The chain passes through the station: taking it out opens all beyond.
    Series,
    /// One pair of terminals only: it ends a run.
    End,
}

/// A door, indoor or management station.
#[derive(Debug, Clone, PartialEq)]
pub struct StationModel {
    /// Name, title, source, price.
    pub head: PartHead,
    /// The family it belongs to.
    pub family: Sourced<String>,
    /// Door, indoor or management station.
    pub kind: Sourced<StationKind>,
    /// Audio or video.
    pub media: Sourced<Media>,
    /// How it sits on a chain.
    pub loop_through: Sourced<LoopThrough>,
    /// Load in standby by day.
    pub standby: Sourced<LoadValue>,
    /// Load while it rings (indoor) or calls (door, management).
    pub ringing: Sourced<LoadValue>,
    /// Load while speech, and picture if any, are on.
    pub talking: Sourced<LoadValue>,
    /// Additional load while it holds a lock released, when the bus feeds the lock.
    pub releasing_extra: Option<Sourced<LoadValue>>,
    /// Additional load at night: illumination.
    pub night_extra: Option<Sourced<LoadValue>>,
    /// Additional load of a heater.
    pub heater_extra: Option<Sourced<LoadValue>>,
    /// Load while it boots.
    pub boot: Option<Sourced<LoadValue>>,
    /// How long it boots.
    pub boot_time: Option<Sourced<Duration>>,
    /// Tolerance of all its loads, either way.
    pub load_tolerance: Sourced<Ratio>,
    /// Drop of its input rectifier; the power above is drawn behind it.
    pub rectifier_drop: Option<Sourced<Voltage>>,
    /// Least voltage at its terminals while ringing or talking.
    pub least_voltage: Sourced<Voltage>,
    /// Least voltage at its terminals in standby and while booting.
    pub least_standby_voltage: Sourced<Voltage>,
    /// Highest voltage at its terminals.
    pub highest_voltage: Option<Sourced<Voltage>>,
    /// Voltage at which its converter starts.
    pub turn_on_voltage: Option<Sourced<Voltage>>,
    /// Voltage at which its converter stops.
    pub turn_off_voltage: Option<Sourced<Voltage>>,
    /// Delay between reaching the turn-on voltage and starting.
    pub turn_on_delay: Option<Sourced<Duration>>,
    /// Input capacitor behind the rectifier.
    pub input_capacitance: Option<Sourced<Capacitance>>,
    /// Limit of its inrush current.
    pub inrush_limit: Option<Sourced<Current>>,
    /// Bridging resistance for signals when not in use.
    pub bridging_resistance: Option<Sourced<Resistance>>,
    /// Bridging capacitance for signals.
    pub bridging_capacitance: Option<Sourced<Capacitance>>,
    /// Impedance as a signal source or receiver when in use.
    pub signal_impedance: Option<Sourced<Resistance>>,
    /// Whether it has a terminator of its own that a switch brings in.
    pub built_in_terminator: Sourced<bool>,
    /// How many of this model alone one supply of the family carries, by the datasheet.
    pub most_per_supply: Option<Sourced<u32>>,
    /// Door: voltage of its lock output.
    pub lock_output_voltage: Option<Sourced<Voltage>>,
    /// Door: tolerance of that voltage at rated current, either way.
    pub lock_output_tolerance: Option<Sourced<Ratio>>,
    /// Door: whether its lock output gives alternating current.
    pub lock_output_ac: Sourced<bool>,
    /// Door: current of its lock output.
    pub lock_output_current: Option<Sourced<Current>>,
    /// Door: contact rating of its lock relay, in amperes at the lock's voltage.
    pub relay_current: Option<Sourced<Current>>,
    /// Door: number of lock relays or outputs.
    pub lock_outputs: Sourced<u32>,
    /// Door: release time that its own setting gives; where there is one it wins over the plan's.
    pub release_time: Option<Sourced<Duration>>,
    /// Door: current that its accessory connector gives.
    pub accessory_current: Option<Sourced<Current>>,
    /// Door: most accessory modules in its chain.
    pub accessory_modules: Option<Sourced<u32>>,
    /// Door: voltage of its output for lights, direct current.
    pub light_output_voltage: Option<Sourced<Voltage>>,
    /// Door: current of that output.
    pub light_output_current: Option<Sourced<Current>>,
    /// Door: number of its alarm inputs.
    pub alarm_inputs: Sourced<u32>,
    /// Door: greatest resistance of a closed loop at an alarm input.
    pub alarm_loop_resistance: Option<Sourced<Resistance>>,
    /// Door: current that each closed loop takes from the bus.
    pub alarm_input_current: Option<Sourced<Current>>,
    /// Door: most dwellings it can call, by buttons or directory.
    pub directory: Option<Sourced<u32>>,
}
