// Sends what the operator decides, and says what came of it.
(function () {
  "use strict";

  const said = document.getElementById("said");

  async function send(address, body, type) {
    said.textContent = "Sending …";
    try {
      const answer = await fetch(address, { method: "POST", headers: { "Content-Type": type }, body });
      if (answer.ok) {
        location.reload();
        return;
      }
      const text = await answer.text();
      said.textContent = words(text) || "answered " + answer.status;
    } catch (failure) {
      said.textContent = "The adapter did not answer; nothing was changed. Try again.";
    }
  }

  // What an answer says: a problem's detail, or why a correction was refused too.
  function words(text) {
    try {
      const json = JSON.parse(text);
      const last = (json.history || []).slice(-1)[0];
      const reasons = last ? (last.reasons || []) : [];
      return reasons.length
        ? "Refused too: " + reasons.map((it) => it.path + " " + it.message + "; " + it.remedy).join(". ")
        : json.detail;
    } catch (notJson) {
      return text;
    }
  }

  function value(id) {
    return document.getElementById(id).value.trim();
  }

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) {
      return;
    }
    if (button.dataset.post) {
      send(button.dataset.post, "", "application/json");
    } else if (!value("by")) {
      said.textContent = "Say who decides this.";
      document.getElementById("by").focus();
    } else if (button.id === "correct") {
      const address = button.dataset.address + "/corrections?by=" + encodeURIComponent(value("by"));
      send(address, document.getElementById("content").value, button.dataset.type);
    } else if (button.id === "set-aside") {
      if (!value("why")) {
        said.textContent = "Say why there is nothing to take.";
        document.getElementById("why").focus();
        return;
      }
      const asked = "?by=" + encodeURIComponent(value("by")) + "&why=" + encodeURIComponent(value("why"));
      send(button.dataset.address + "/setting-aside" + asked, "", "application/json");
    }
  });
})();
