/* The script of the page where a test is added. */
document.documentElement.dataset.scripted = "yes";
