// The best question is worked out from everybody's readings; the page is shown meanwhile.
const question = document.getElementById("question");

async function tellQuestion() {
  try {
    const answer = await fetch(question.dataset.from, { credentials: "same-origin" });
    if (!answer.ok || answer.redirected) throw new Error();
    const { name, said } = await answer.json();
    const strong = document.createElement("strong");
    strong.textContent = name;
    question.replaceChildren(strong, name ? `, ${said}` : said);
  } catch {
    question.textContent = "The best question could not be worked out; reload the page.";
  }
}

if (question) tellQuestion();
