//! What stands beside the drawing of one run.

use super::about::{About, step};
use super::profile::profile;
use super::shell::bar;
use latchline_assess::DeviceResult;
use latchline_site::model::{Run, RunStop};
use latchline_words::figures;
use latchline_words::office::Label;
use latchline_words::states;
use maud::{Markup, html};
use std::collections::BTreeMap;

impl About<'_> {
    /// Its cable, lengths, start and stations, and what can be changed of them.
    pub fn run(&self, at: usize) -> Markup {
        let run = &self.site.runs[at];
        let id = run.id.as_str();
        let before: BTreeMap<&str, &DeviceResult> = self
            .state
            .before
            .as_ref()
            .and_then(|before| before.results.as_ref())
            .map(|results| results.devices.iter().map(|device| (device.id.as_str(), device)).collect())
            .unwrap_or_default();
        let thin_v = self.site.policy.thin_margin.value.as_volts();
        let lengths: Vec<String> =
            run.sections.iter().map(|section| self.length(section.length.value.as_metres())).collect();
        let stops: Vec<String> =
            run.sections.iter().map(|section| self.site.stop_id(section.to).to_string()).collect();
        let ports = self.ports(run);
        html! {
            p.kind { (self.say(Label::Run)) }
            h2 { (id) }
            p.quiet { (self.site.start_id(run.from)) " → " (stops.join(", ")) @if run.existing.value { " · " (self.say(Label::Existing)) } }
            form.change data-kind="cable" data-run=(id) {
                label for="d-cable" { (self.say(Label::Cable)) }
                select #d-cable name="cable" {
                    @for cable in self.site.catalogue.cables.values() {
                        option value=(cable.head.name) selected[cable.head.name == run.cable.value] { (cable.head.name) " · " (cable.head.title.of(self.locale.language)) }
                    }
                }
            }
            form.change data-kind="lengths" data-run=(id) {
                label for="d-lengths" { (self.say(Label::Lengths)) }
                input #d-lengths name="lengths" value=(lengths.join(" · ")) autocomplete="off" aria-describedby="d-lengths-hint";
                p.hint #d-lengths-hint { (self.say(Label::LengthsHint)) }
            }
            form.change data-kind="port" data-run=(id) {
                label for="d-port" { (self.say(Label::Port)) }
                select #d-port name="from" { @for (port, free) in &ports { option value=(port) selected[!free] { (port) } } }
            }
            @if stops.len() > 1 && run.sections.iter().all(|section| matches!(section.to, RunStop::Station(_))) {
                form.change data-kind="order" data-run=(id) {
                    label for="d-order" { (self.say(Label::Order)) }
                    input #d-order name="stops" value=(stops.join(" ")) autocomplete="off" spellcheck="false" aria-describedby="d-order-hint";
                    p.hint #d-order-hint { (self.say(Label::OrderHint)) }
                }
            }
            (self.run_current(at))
            @if run.sections.iter().any(|section| matches!(section.to, RunStop::Station(_))) {
                h3 { (self.say(Label::StationsOnIt)) }
                table.figures {
                    thead { tr { th scope="col" { (self.say(Label::Station)) } th.number scope="col" { "V" } th.number scope="col" { (self.say(Label::Limit)) } th.number scope="col" { "±" } th scope="col" { span.visually-hidden { (self.say(Label::Margin)) } } } }
                    tbody {
                        @for stop in &stops {
                            @if let Some(device) = self.result(stop) {
                                tr {
                                    th scope="row" { button.link type="button" data-pick=(stop) { (stop) } }
                                    td.number { @match device.worst.adverse_v { Some(v) => { strong { (self.volts(v)) } } None => { "–" } } }
                                    td.number.quiet { (self.up(device.worst.limit_v, 1)) }
                                    td.number { (self.difference(device, before.get(stop.as_str()).copied())) }
                                    td { (bar(step(device.worst.margin_v(), thin_v))) }
                                }
                            }
                        }
                    }
                }
                (profile(self.site, self.results, at, self.locale))
                div.buttons { button type="button" data-add-dwelling=(id) data-place=(self.place_of_last(run)) { (self.say(Label::AddDwelling)) } }
            }
            (self.findings(&[id]))
        }
    }

    /// Place of the last dwelling on a run, for one that is added.
    fn place_of_last(&self, run: &Run) -> String {
        let Some(RunStop::Station(station)) = run.sections.last().map(|section| section.to) else {
            return String::new();
        };
        self.site.place_key(self.site.station_place(&self.site.stations[station])).unwrap_or_default()
    }

    fn difference(&self, now: &DeviceResult, before: Option<&DeviceResult>) -> String {
        let Some((now, before)) = now.worst.adverse_v.zip(before.and_then(|before| before.worst.adverse_v))
        else {
            return String::new();
        };
        let by = now - before;
        if by.abs() < 0.05 {
            return String::new();
        }
        let number = figures::decimals(format!("{:.1}", by.abs()), self.language());
        format!("{}{number}", if by < 0.0 { "−" } else { "+" })
    }

    fn run_current(&self, at: usize) -> Markup {
        let Some(current) = self.results.run_currents.get(at).and_then(Option::as_ref) else {
            return html! {};
        };
        html! {
            dl.facts {
                dt { (self.say(Label::LargestCurrent)) }
                dd {
                    @match current.current_a { Some(a) => { strong { (self.amperes(a)) " A" } } None => { "–" } }
                    @if let Some(limit) = current.limit_a { " / " (self.locale.trimmed(limit, 2)) " A" }
                    " " span.quiet { (states::in_words(&current.state, self.language())) }
                }
            }
        }
    }

    /// Ports that it could start from: its own, and those that are free.
    fn ports(&self, run: &Run) -> Vec<(String, bool)> {
        let own = self.site.start_id(run.from).to_string();
        let taken: Vec<String> =
            self.site.runs.iter().map(|run| self.site.start_id(run.from).to_string()).collect();
        let mut ports = vec![(own, false)];
        for entry in &self.site.boxes {
            let count = self.site.box_model(entry).ports.value;
            let all = (1..=count).map(|port| format!("{}.{port}", entry.id));
            ports.extend(all.filter(|port| !taken.contains(port)).map(|port| (port, true)));
        }
        ports
    }
}
