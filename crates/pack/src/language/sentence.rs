//! Every sentence with arguments.

/// A sentence with arguments, which are shown as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sentence<'a> {
    /// tells `told`
    AlarmTells {
        /// `told` in it.
        told: &'a str,
    },
    /// allowed: `least` to `most`
    AllowedRange {
        /// `least` in it.
        least: &'a str,
        /// `most` in it.
        most: &'a str,
    },
    /// at a bus of `value`
    AtBusVoltage {
        /// `value` in it.
        value: &'a str,
    },
    /// at least `value`
    AtLeast {
        /// `value` in it.
        value: &'a str,
    },
    /// at most `value`
    AtMost {
        /// `value` in it.
        value: &'a str,
    },
    /// at most `time` at a stretch
    AtMostAtAStretch {
        /// `time` in it.
        time: &'a str,
    },
    /// The battery carries the system for at least `hours` in standby; nothing to wait for today.
    BatteryCarries {
        /// `hours` in it.
        hours: &'a str,
    },
    /// Call from `caller`: it rings; speech is clear both ways. Voltage while talking:
    CallAudio {
        /// `caller` in it.
        caller: &'a str,
    },
    /// Call from `caller`: it rings with the main station; answer here, speech is clear both ways. Voltage while talking:
    CallAudioExtension {
        /// `caller` in it.
        caller: &'a str,
    },
    /// `from` talks with `to`, lock released
    CallReleasing {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// `from` rings `to`
    CallRinging {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// `from` talks with `to`
    CallTalking {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// Call from `caller`: it rings; the picture is steady; speech is clear both ways. Voltage while talking:
    CallVideo {
        /// `caller` in it.
        caller: &'a str,
    },
    /// Call from `caller`: it rings with the main station; answer here: picture is steady, speech is clear both ways. Voltage while talking:
    CallVideoExtension {
        /// `caller` in it.
        caller: &'a str,
    },
    /// `to` views `from`
    CallViewing {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// calls at once: `count`
    CallsStanding {
        /// `count` in it.
        count: &'a str,
    },
    /// Connect run `run`; what it leads to has power. Its current is read later, with everything beyond it.
    ConnectFeeder {
        /// `run` in it.
        run: &'a str,
    },
    /// Connect run `run`; current at `from`
    ConnectRun {
        /// `run` in it.
        run: &'a str,
        /// `from` in it.
        from: &'a str,
    },
    /// this lock needs: `contact`
    ContactNeeded {
        /// `contact` in it.
        contact: &'a str,
    },
    /// Cut to: the stated length, `tolerance` more for its tolerance, and `ends` at each end for making off, rounded up to 0.1 m.
    CutAllowance {
        /// `tolerance` in it.
        tolerance: &'a str,
        /// `ends` in it.
        ends: &'a str,
        /// `step` in it.
        step: &'a str,
    },
    /// `name`: `needed`, bought to length (the catalogue states no drum lengths)
    CutByTheMetre {
        /// `name` in it.
        name: &'a str,
        /// `needed` in it.
        needed: &'a str,
    },
    /// `name`: `drums`; needed `needed`, bought `bought`, left over `waste`; proved least
    CutProved {
        /// `name` in it.
        name: &'a str,
        /// `drums` in it.
        drums: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `bought` in it.
        bought: &'a str,
        /// `waste` in it.
        waste: &'a str,
    },
    /// `name`: `needed`, order to length: a piece of `piece` is longer than the longest drum of `longest`
    CutTooLong {
        /// `name` in it.
        name: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `piece` in it.
        piece: &'a str,
        /// `longest` in it.
        longest: &'a str,
    },
    /// `name`: `drums`; needed `needed`, bought `bought`, left over `waste`; no plan buys less than `bound`
    CutWithBound {
        /// `name` in it.
        name: &'a str,
        /// `drums` in it.
        drums: &'a str,
        /// `needed` in it.
        needed: &'a str,
        /// `bought` in it.
        bought: &'a str,
        /// `waste` in it.
        waste: &'a str,
        /// `bound` in it.
        bound: &'a str,
    },
    /// `door`: release, escape and fire interlock agreed with (name)
    DoorAgreed {
        /// `door` in it.
        door: &'a str,
    },
    /// Drop on `section`
    DropInSection {
        /// `section` in it.
        section: &'a str,
    },
    /// `count` ERRORS
    ErrorsShort {
        /// `count` in it.
        count: &'a str,
    },
    /// Current of `run` with everything beyond it
    FeederCurrent {
        /// `run` in it.
        run: &'a str,
    },
    /// port `port` is free
    FreePort {
        /// `port` in it.
        port: &'a str,
    },
    /// published: `least` to `most` (`source`)
    HeightRange {
        /// `least` in it.
        least: &'a str,
        /// `most` in it.
        most: &'a str,
        /// `source` in it.
        source: &'a str,
    },
    /// Lines without a price: `count`. The total leaves them out.
    LinesWithoutPrice {
        /// `count` in it.
        count: &'a str,
    },
    /// `door`: lock `number`
    LockCalculation {
        /// `door` in it.
        door: &'a str,
        /// `number` in it.
        number: &'a str,
    },
    /// Insulation between the conductors and to earth, electronics disconnected, as the cable allows: at least `least` Mohm. Reading:
    MeasureInsulation {
        /// `least` in it.
        least: &'a str,
    },
    /// Loop resistance from `from`, far end `end` short-circuited
    MeasureLoop {
        /// `from` in it.
        from: &'a str,
        /// `end` in it.
        end: &'a str,
    },
    /// `day` by day, `night` by night
    ModuleCurrent {
        /// `day` in it.
        day: &'a str,
        /// `night` in it.
        night: &'a str,
    },
    /// needs `what`
    Needs {
        /// `what` in it.
        what: &'a str,
    },
    /// `site` · revision `revision` · `date` · input SHA-256 `hash`
    Origin {
        /// `site` in it.
        site: &'a str,
        /// `revision` in it.
        revision: &'a str,
        /// `date` in it.
        date: &'a str,
        /// `hash` in it.
        hash: &'a str,
    },
    /// `site` · revision `revision` · input SHA-256 `hash`
    OriginUndated {
        /// `site` in it.
        site: &'a str,
        /// `revision` in it.
        revision: &'a str,
        /// `hash` in it.
        hash: &'a str,
    },
    /// Prices in `currency`, without tax and labour.
    PricesIn {
        /// `currency` in it.
        currency: &'a str,
    },
    /// Pull from `from` to `to`; label both ends.
    PullAndLabel {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// Cable that is in the walls already.
    FindAndLabel {
        /// `from` in it.
        from: &'a str,
        /// `to` in it.
        to: &'a str,
    },
    /// Release time: set to `time`. Measured:
    ReleaseTime {
        /// `time` in it.
        time: &'a str,
    },
    /// Set `address`: `settings`
    SetAddress {
        /// `address` in it.
        address: &'a str,
        /// `settings` in it.
        settings: &'a str,
    },
    /// Set the output to `voltage`.
    SetVoltage {
        /// `voltage` in it.
        voltage: &'a str,
    },
    /// sets of calls solved: `solved` of `of`
    SetsSolved {
        /// `solved` in it.
        solved: &'a str,
        /// `of` in it.
        of: &'a str,
    },
    /// THIS SITE HAS ERRORS (`count`): DO NOT BUILD FROM THIS SHEET. See the snag list.
    SiteHasErrors {
        /// `count` in it.
        count: &'a str,
    },
    /// Spares: one station for every `of` of a model begun, from `from` on (common practice). Cable: what is left of the drums.
    SpareRule {
        /// `from` in it.
        from: &'a str,
        /// `of` in it.
        of: &'a str,
    },
    /// U₀ = `source`, Σ R I = `drops`
    SumOfDrops {
        /// `source` in it.
        source: &'a str,
        /// `drops` in it.
        drops: &'a str,
    },
    /// `supply`: battery, mains, heat
    SupplyCalculation {
        /// `supply` in it.
        supply: &'a str,
    },
    /// Surge protector, `resistance` in the loop
    SurgeProtector {
        /// `resistance` in it.
        resistance: &'a str,
    },
    /// Open or close the contact: `told` hear of it.
    TryAlarmInput {
        /// `told` in it.
        told: &'a str,
    },
    /// `module` works and opens what it should.
    TryModule {
        /// `module` in it.
        module: &'a str,
    },
    /// Voltage at the end of `run`
    VoltageAtEnd {
        /// `run` in it.
        run: &'a str,
    },
    /// `device` on `source`: `state`
    VoltageCalculation {
        /// `device` in it.
        device: &'a str,
        /// `source` in it.
        source: &'a str,
        /// `state` in it.
        state: &'a str,
    },
}
