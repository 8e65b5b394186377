//! Whether a change leaves a finding, told from the one state or call in which it was found.

use crate::bench::Bench;
use latchline_assess::rules::codes;
use latchline_finding::{Argument, ElementId, Finding};
use latchline_network::signal_tree::{SignalNetwork, loss_from_caller};
use latchline_network::witness::margin_in_state;
use latchline_network::{Device, Layout};
use latchline_site::model::Site;

/// Whether the changed site is known to have the finding still, or another in its place that was not there; false where it takes
/// more to know.
pub(crate) fn stays(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> bool {
    let stays = match finding.code {
        codes::VOLTAGE_TOO_LOW => margin(bench, changed, finding).map(|margin_v| margin_v < 0.0),
        // With still less in hand it is too low, which is worse and was not found before.
        codes::THIN_MARGIN => {
            let thin_v = changed.policy.thin_margin.value.as_volts();
            margin(bench, changed, finding).map(|margin_v| margin_v < thin_v)
        }
        codes::SIGNAL_TOO_WEAK => is_too_weak(bench, changed, finding),
        _ => None,
    };
    stays.unwrap_or(false)
}

/// Margin of the device in the state in which it was found.
fn margin(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> Option<f64> {
    // Where the bus collapses nothing is said of the voltage: then only the whole tells.
    let assessment = bench.assessment;
    if assessment.findings.iter().any(|one| one.code == codes::NO_OPERATING_POINT)
        || assessment.not_judged.iter().any(|one| one.code == codes::NO_OPERATING_POINT)
    {
        return None;
    }
    let (element, state) = (finding.element.as_ref()?, finding.state.as_ref()?);
    let station = station(changed, element).map(Device::Station);
    let device =
        station.or_else(|| changed.boxes.iter().position(|one| one.id == *element).map(Device::Box))?;
    margin_in_state(changed, &Layout::new(changed), device, state)
}

/// Whether the signal from the caller that was found is still weaker than its budget allows.
fn is_too_weak(bench: &Bench<'_>, changed: &Site, finding: &Finding) -> Option<bool> {
    let Some(Argument::Element(caller)) = finding.argument("caller") else { return None };
    let Some(Argument::Text(band)) = finding.argument("band") else { return None };
    let bands = &changed.family().signal_bands;
    let band = bands.iter().position(|one| one.name == *band)?;
    let (caller, station) = (station(changed, caller)?, station(changed, finding.element.as_ref()?)?);
    let network = SignalNetwork::new(changed, &Layout::new(changed));
    let loss_db = loss_from_caller(changed, &network, caller, station, band, &bench.memory)?;
    Some(loss_db > bands[band].budget.value.as_decibels())
}

fn station(site: &Site, id: &ElementId) -> Option<usize> {
    site.stations.iter().position(|one| one.id == *id)
}
