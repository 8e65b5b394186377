//! The arguments as typed; what they mean is worked out by the commands.
//!
//! Help, man page and completions all come from these definitions.

use crate::commands::{
    accept::AcceptArguments, addresses::AddressesArguments, as_built::AsBuiltArguments, ask::AskArguments,
    catalogue::CatalogueArguments, check::CheckArguments, compare::CompareArguments,
    completions::CompletionsArguments, design::DesignArguments, draw::DrawArguments,
    explain::ExplainArguments, fix::FixArguments, flow::FlowArguments, headroom::HeadroomArguments,
    locate::LocateArguments, man::ManArguments, new::NewArguments, pack::PackArguments,
    phone::PhoneArguments, practise::PractiseArguments, reach::ReachArguments, readings::ReadingsArguments,
    response::ResponseArguments, schema::SchemaArguments, serve::ServeArguments, store::StoreArguments,
};
use clap::{Parser, Subcommand};

/// The examples at the end of a help text.
macro_rules! examples {
    ($first:literal, $second:literal) => {
        concat!("Examples:\n  latchline ", $first, "\n  latchline ", $second)
    };
}

/// Turn a building into a two-wire door-entry system that works first time
///
/// Reads a site file that describes buildings, supplies, distributors, entrances, dwellings and cable
/// runs, and says whether the system will work in every operating state, where it will not, and by
/// how much.
///
/// Exit status: 0 nothing that counts was found, 1 findings, 2 the input cannot be used.
#[derive(Debug, Parser)]
#[command(name = "latchline", version, after_help = examples!("new --demo demo", "check demo/site.toml"))]
#[command(propagate_version = true, arg_required_else_help = true)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    #[command(after_help = examples!("new my-site.toml", "new --demo demo"))]
    New(NewArguments),
    #[command(after_help = examples!("check site.toml", "check site.toml --format json --output result.json"))]
    Check(CheckArguments),
    #[command(after_help = examples!("addresses site.toml A-6:2", "addresses site.toml --found devices.txt"))]
    Addresses(AddressesArguments),
    #[command(after_help = examples!(
        "accept site.toml thin-margin A-401 --reason \"replaced in spring\"",
        "accept site.toml silenced-group --reason \"agreed with the owner\" --date 2026-11-02"
    ))]
    Accept(AcceptArguments),
    #[command(after_help = examples!("fix site.toml --job J1", "fix site.toml --all --write"))]
    Fix(FixArguments),
    #[command(after_help = examples!("draw site.toml -o site.svg", "draw site.toml -o pictures --what switches --format dxf"))]
    Draw(DrawArguments),
    #[command(after_help = examples!("design survey.xlsx -o site.toml", "design survey.xlsx --compare"))]
    Design(DesignArguments),
    #[command(after_help = examples!("catalogue", "catalogue pair-0.8"))]
    Catalogue(CatalogueArguments),
    #[command(after_help = examples!("explain voltage-too-low", "explain no picture"))]
    Explain(ExplainArguments),
    #[command(after_help = examples!("serve", "serve my-sites --no-browser"))]
    Serve(ServeArguments),
    #[command(after_help = examples!("schema site", "schema check"))]
    Schema(SchemaArguments),
    #[command(after_help = examples!("completions bash", "completions zsh"))]
    Completions(CompletionsArguments),
    #[command(after_help = examples!("man", "man check"))]
    Man(ManArguments),
    #[command(after_help = examples!("flow network.json", "flow network.json --samples 1000 --spread 5"))]
    Flow(FlowArguments),
    #[command(after_help = examples!("pack site.toml -o pack", "pack site.toml -o pack --for client --language de"))]
    Pack(PackArguments),
    #[command(after_help = examples!("phone site.toml -o site.html", "phone site.toml -o site.html --language de"))]
    Phone(PhoneArguments),
    #[command(after_help = examples!("readings site.toml readings-*.json", "readings site.toml kim.json robin.json -o readings.toml"))]
    Readings(ReadingsArguments),
    #[command(after_help = examples!("as-built site.toml readings-*.json", "as-built site.toml kim.json robin.json --write"))]
    AsBuilt(AsBuiltArguments),
    #[command(after_help = examples!("headroom site.toml", "headroom site.toml --format json"))]
    Headroom(HeadroomArguments),
    #[command(after_help = examples!("locate site.toml A-15@ringing=33V", "locate site.toml readings.toml --format json"))]
    Locate(LocateArguments),
    #[command(after_help = examples!("practise site.toml --seed 7", "practise site.toml --seed 7 --ask A-R1 --answer joint:A-12"))]
    Practise(PractiseArguments),
    #[command(after_help = examples!("reach --total 60 --cable \"bell wire\"", "reach ostrel-48 --cable pair-0.8 --chart reach.svg"))]
    Reach(ReachArguments),
    #[command(after_help = examples!("ask lock strike-12 --length 35", "ask battery 12 --hours 8"))]
    Ask(AskArguments),
    #[command(after_help = examples!("compare old.toml new.toml", "compare old.toml new.toml --format json"))]
    Compare(CompareArguments),
    #[command(after_help = examples!("response line.json", "response - < line.json"))]
    Response(ResponseArguments),
    #[command(after_help = examples!("store list my-sites", "store backup my-sites sites-monday.db"))]
    Store(StoreArguments),
}
