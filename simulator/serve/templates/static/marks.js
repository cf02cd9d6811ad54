// Points that are being worked out come within seconds: the page is asked for again.
if (document.querySelector("[data-waits]")) setTimeout(() => location.reload(), 4000);
