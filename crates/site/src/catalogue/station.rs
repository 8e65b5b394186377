//! Door, indoor and management stations.

use super::head::{HOUSED_KEYS, PartHead};
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, LoadValue, choices, keys};
use latchline_finding::Sourced;
use latchline_finding::quantity::{Capacitance, Current, Duration, Ratio, Resistance, Voltage};

choices! {
    /// Which of the three kinds of station.
    pub enum StationKind {
        /// The visitor's unit.
        Door = "door",
        /// The resident's unit.
        Indoor = "indoor",
        /// The concierge's unit.
        Management = "management",
    }
}

choices! {
    /// What a station carries.
    pub enum Media {
        /// Speech only.
        Audio = "audio",
        /// Speech and picture.
        Video = "video",
    }
}

choices! {
    /// How a station sits on a chain.
    pub enum LoopThrough {
        /// In and out are joined on the terminal block: taking the station out leaves the chain whole.
        Bridged = "bridged",
        /// The chain passes through the station: taking it out opens all beyond.
        Series = "series",
        /// One pair of terminals only: it ends a run.
        End = "end",
    }
}

keys! {
    /// A door, indoor or management station. Loads are given at its terminals as power ("4.5 W"), current ("85 mA") or
    /// resistance ("470 ohm").
    pub struct StationModel = STATION_MODEL StationModel after HOUSED_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Family that it belongs to.
    family: Sourced<String> = must(TEXT);
    /// Door, indoor or management station.
    kind: Sourced<StationKind> = must(Kind::Words(StationKind::WORDS));
    /// Speech only, or speech and picture.
    media: Sourced<Media> = must(Kind::Words(Media::WORDS));
    /// How it sits on a chain: bridged (taking it out leaves the chain whole), in series (taking it out opens all beyond),
    /// or only at the end.
    loop_through: Sourced<LoopThrough> = must(Kind::Words(LoopThrough::WORDS));
    /// Load in standby by day.
    standby: Sourced<LoadValue> = must(Kind::Load).bears(Bears::OnFlow);
    /// Load while it rings, or calls.
    ringing: Sourced<LoadValue> = must(Kind::Load).bears(Bears::OnFlow);
    /// Load while speech, and picture if any, are on.
    talking: Sourced<LoadValue> = must(Kind::Load).bears(Bears::OnFlow);
    /// Additional load while it energises a lock: to release one that stays shut without power, or to hold one that opens
    /// without.
    releasing_extra: Option<Sourced<LoadValue>> = may(Kind::Load).bears(Bears::OnFlow);
    /// Additional load of its illumination at night.
    night_extra: Option<Sourced<LoadValue>> = may(Kind::Load).bears(Bears::OnFlow);
    /// Additional load of its heater.
    heater_extra: Option<Sourced<LoadValue>> = may(Kind::Load).bears(Bears::OnFlow);
    /// Load while it starts up; the same as standby if that is all. Without it a station with a converter is not judged at power return; one without a
    /// converter draws its standby.
    boot: Option<Sourced<LoadValue>> = may(Kind::Load).bears(Bears::OnFlow);
    /// How long it takes to start up. Without it a station with a converter is not judged at power return.
    boot_time: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Tolerance of its loads, either way. Without it 10 %, assumed.
    load_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(0.1)).bears(Bears::OnFlow);
    /// Drop of its input rectifier; power is then drawn behind it.
    rectifier_drop: Option<Sourced<Voltage>> = may(SMALL_VOLTAGE).bears(Bears::OnFlow);
    /// Least voltage at its terminals while ringing or talking.
    least_voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
    /// Least voltage at its terminals in standby and start-up.
    least_standby_voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
    /// Highest voltage at its terminals.
    highest_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnFlow);
    /// Whether it has a converter. false: it draws from the first volt on; else start-up is judged by its thresholds.
    converter: Option<Sourced<bool>> = may(BOOLEAN).bears(Bears::OnStartUp);
    /// Voltage at which its converter starts.
    turn_on_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnStartUp);
    /// Voltage at which its converter stops.
    turn_off_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnStartUp);
    /// Delay between reaching the turn-on voltage and starting. Without it none: it starts as soon as the voltage is reached.
    turn_on_delay: Option<Sourced<Duration>> = may(TIME).bears(Bears::OnStartUp);
    /// Input capacitor behind the rectifier.
    input_capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE).bears(Bears::OnStartUp);
    /// Limit of its inrush current.
    inrush_limit: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnStartUp);
    /// Resistance that it puts across the pair for signals when not in use.
    bridging_resistance: Option<Sourced<Resistance>> = may(RESISTANCE).bears(Bears::OnSignal);
    /// Capacitance that it puts across the pair for signals.
    bridging_capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE).bears(Bears::OnSignal);
    /// Impedance as a signal source or receiver when in use.
    signal_impedance: Option<Sourced<Resistance>> = may(RESISTANCE).bears(Bears::OnSignal);
    /// Whether it has a terminator that a switch brings in. Without it false.
    built_in_terminator: Sourced<bool> = or(BOOLEAN, false);
    /// How many of this model alone one supply of the family carries, by the datasheet.
    most_per_supply: Option<Sourced<u32>> = may(ONE_OR_MORE);
    /// Door: voltage of its lock output.
    lock_output_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Door: tolerance of that voltage at rated current. Without it 5 %, assumed.
    lock_output_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(0.05))
        .bears(Bears::OnLockOutput).goes_with("lock_output_voltage");
    /// Door: whether its lock output gives alternating current. Without it false.
    lock_output_ac: Sourced<bool> = or(BOOLEAN, false);
    /// Door: current of its lock output.
    lock_output_current: Option<Sourced<Current>> = may(CURRENT);
    /// Door: contact rating of its lock relay.
    relay_current: Option<Sourced<Current>> = may(CURRENT);
    /// Door: number of lock relays or outputs. Without it 1 for a door station, else 0.
    lock_outputs: Sourced<u32> = or(Kind::Integer(0, 16), u32::from(kind.value == StationKind::Door));
    /// Door: release time that its own setting gives.
    release_time: Option<Sourced<Duration>> = may(TIME);
    /// Door: current that its accessory connector gives.
    accessory_current: Option<Sourced<Current>> = may(CURRENT);
    /// Door: most accessory modules in its chain.
    accessory_modules: Option<Sourced<u32>> = may(COUNT);
    /// Door: voltage of its output for lights, direct current.
    light_output_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Door: current of its output for lights.
    light_output_current: Option<Sourced<Current>> = may(CURRENT);
    /// Door: number of its alarm inputs. Without it none.
    alarm_inputs: Sourced<u32> = or(Kind::Integer(0, 16), 0);
    /// Door: greatest resistance of a closed loop at an alarm input.
    alarm_loop_resistance: Option<Sourced<Resistance>> = may(RESISTANCE);
    /// Door: current that each closed loop at an alarm input takes from the bus.
    alarm_input_current: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnFlow);
    /// Door: most dwellings it can call, by buttons or directory.
    directory: Option<Sourced<u32>> = may(ONE_OR_MORE);
}
