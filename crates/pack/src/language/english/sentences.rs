//! The pack in English: sentences with arguments.

use crate::language::Sentence;

/// A sentence with its arguments.
pub(crate) fn sentence(sentence: &Sentence<'_>) -> String {
    match *sentence {
        Sentence::AlarmTells { told } => format!("tells {told}"),
        Sentence::AllowedRange { least, most } => format!("allowed: {least} to {most}"),
        Sentence::AtBusVoltage { value } => format!("at a bus of {value}, nominal"),
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
        Sentence::CutAllowance { tolerance, ends, step } => format!(
            "Cut to: the stated length, {tolerance} more for its tolerance, and {ends} at each end for making off, rounded up to {step}."
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
        Sentence::FindAndLabel { from, to } => {
            format!("In place already, from {from} to {to}: find and try both ends; label them.")
        }
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
        Sentence::TryAlarmInput { told } => format!("Trip the contact: {told} must be told."),
        Sentence::TryModule { module } => format!("{module} works and opens what it should."),
        Sentence::VoltageAtEnd { run } => format!("Voltage at the end of {run}"),
        Sentence::VoltageCalculation { device, source, state } => format!("{device} on {source}: {state}"),
    }
}
