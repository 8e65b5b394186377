//! Families and the bands of their signals.

use super::addresses::{ADDRESSES, AddressScheme};
use super::head::{FAMILY_KEYS, PartHead};
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, keys};
use latchline_finding::Sourced;
use latchline_finding::quantity::{Capacitance, Decibels, Frequency, Length, Ratio, Resistance, Voltage};

keys! {
    /// A family of parts that work together on one kind of bus.
    pub struct Family = FAMILY Family after FAMILY_KEYS;
    try read(record, provenance, head: PartHead, signal_bands: Vec<SignalBand>, addresses: Option<AddressScheme>);

    /// Name, title, source.
    field head: PartHead = head;
    /// Nominal bus voltage.
    nominal_voltage: Sourced<Voltage> = must(VOLTAGE);
    /// Calls that may stand at once on one site.
    simultaneous_calls: Sourced<u32> = must(ONE_OR_MORE);
    /// Self-started views that may stand at once, within the number of calls. Without it 0.
    simultaneous_views: Sourced<u32> = or(COUNT, 0);
    /// Whether the management station can call every dwelling at once. Without it false.
    all_call: Sourced<bool> = or(BOOLEAN, false);
    /// Longest cable path from a port to the last device of its run.
    longest_run: Option<Sourced<Length>> = may(SECTION_LENGTH);
    /// Greatest total length of cable on one port, branches included.
    total_length_per_port: Option<Sourced<Length>> = may(SECTION_LENGTH);
    /// Most stations on one port, branches included.
    stations_per_port: Option<Sourced<u32>> = may(ONE_OR_MORE);
    /// Most distributors one behind the other.
    cascade_depth: Option<Sourced<u32>> = may(ONE_OR_MORE);
    /// Most door stations on one bus; buses that no wire joins count apart.
    door_stations: Option<Sourced<u32>> = may(ONE_OR_MORE);
    /// Most stations of one dwelling, the main one included.
    stations_per_dwelling: Option<Sourced<u32>> = may(ONE_OR_MORE);
    /// Whether the last station of every chain needs a terminator. Without it false.
    terminator_required: Sourced<bool> = or(BOOLEAN, false);
    /// Resistance of the terminator.
    terminator_resistance: Option<Sourced<Resistance>> = may(RESISTANCE);
    /// Its series capacitor.
    terminator_capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE);
    /// Frequency bands of its signals on the pair, with the loss that they bear. Without it only lengths are judged.
    signal_bands: Vec<SignalBand> = list(Kind::List(&Kind::Table(&SIGNAL_BAND))).bears(Bears::OnSignal), by signal_bands;
    /// Whether several stations may hang on one chain. Without it true.
    chains: Sourced<bool> = or(BOOLEAN, true);
    /// Whether a chain may branch at stations and branch boxes. Without it true.
    branches: Sourced<bool> = or(BOOLEAN, true);
    /// How devices are numbered and set.
    addresses: AddressScheme = must(Kind::Table(&ADDRESSES)), by addresses?;
}

keys! {
    /// One band of frequencies that a family uses on the pair.
    pub struct SignalBand = SIGNAL_BAND SignalBand;
    try read(record, provenance);

    /// What it carries: "speech", "picture", "data".
    name: String = must(TEXT);
    /// Lower end of the band.
    low: Sourced<Frequency> = must(FREQUENCY);
    /// Upper end of the band.
    high: Sourced<Frequency> = must(FREQUENCY);
    /// Greatest insertion loss between door station and indoor station.
    budget: Sourced<Decibels> = must(LEVEL);
    /// Greatest difference between the highest and the lowest level in the band. Without it none is judged.
    ripple: Option<Sourced<Decibels>> = may(LEVEL);
    /// Part of the band in which the budget must be kept: below 100 % for signals of many carriers, which leave out
    /// those in a notch. Without it 100 %.
    share: Sourced<Ratio> = or_known(EFFICIENCY, Ratio::from_fraction(1.0));
    /// Whether only video stations use it. Without it false.
    video_only: bool = or(BOOLEAN, false);
}
