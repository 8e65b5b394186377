//! `country-without-rules`

use crate::door::escape::has_rules;
use crate::door::heights::height_range;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// That something is known here for the country that the site file states: published rules for locks on escape
    /// routes, or heights of controls.
    ///
    /// # Why it matters
    /// Without them the advice is general. A name in place of the two letters, or "UK" for "GB", has the same effect
    /// and would pass unnoticed.
    ///
    /// # Example
    /// `country = "England"`.
    ///
    /// # What to do
    /// Write the country as two letters after ISO 3166-1 (`"GB"`). If it is right, look up its own rules with
    /// the responsible person.
    pub static COUNTRY_WITHOUT_RULES: "country-without-rules", Advice,
        "A country for which no rules are known", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let Some(country) = &context.site.country else { return };
    let code = country.value.as_str();
    if has_rules(code) || height_range(Some(code)) != height_range(None) {
        return;
    }
    let found =
        finding(doc, country.origin.clone()).with("country", code).with("source", height_range(None).source);
    report.push(found);
}
