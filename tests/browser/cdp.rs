//! Commands of the driver that the standard does not have.

use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Value, json};
use url::{ParseError, Url};

/// A command of the browser's own debugging protocol.
#[derive(Debug)]
pub(crate) struct Cdp {
    pub(crate) name: &'static str,
    pub(crate) parameters: Value,
}

impl WebDriverCompatibleCommand for Cdp {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        in_session(base, session, "goog/cdp/execute")
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        let body = json!({ "cmd": self.name, "params": self.parameters });
        (Method::POST, Some(body.to_string()))
    }
}

/// What the console said since it was last asked.
#[derive(Debug)]
pub(crate) struct ConsoleLog;

impl WebDriverCompatibleCommand for ConsoleLog {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        in_session(base, session, "se/log")
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(json!({ "type": "browser" }).to_string()))
    }
}

fn in_session(base: &Url, session: Option<&str>, path: &str) -> Result<Url, ParseError> {
    let session = session.unwrap_or_default();
    base.join(&format!("session/{session}/{path}"))
}
